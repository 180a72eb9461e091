import os from 'node:os';
import path from 'node:path';
import { type StartRefusal, StartStopped } from './refusal.ts';

/** What the person asked for on the command line. */
export type StartOptions = {
  readonly dataDir: string;
  readonly demo: boolean;
  readonly browser: boolean;
  /** 0 = any free one. */
  readonly port: number;
  readonly help: boolean;
};

type Surroundings = {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly home: string;
};

const HERE: Surroundings = { platform: process.platform, env: process.env, home: os.homedir() };

/** Where a shop's data lies when nobody says otherwise: the system's own place for a program's data. */
export function defaultDataDir(at: Surroundings = HERE): string {
  if (at.platform === 'win32')
    return path.join(at.env['LOCALAPPDATA'] ?? path.join(at.home, 'AppData', 'Local'), 'rakelight');
  if (at.platform === 'darwin') return path.join(at.home, 'Library', 'Application Support', 'rakelight');
  return path.join(at.env['XDG_DATA_HOME'] || path.join(at.home, '.local', 'share'), 'rakelight');
}

/**
 * Reads the command line. Relative folders count from where the person stands.
 * @throws StartStopped badOption on an unknown option, a missing folder or a port outside 1024..65535
 */
export function readOptions(args: readonly string[], at: Surroundings = HERE): StartOptions {
  const found = { dataDir: defaultDataDir(at), demo: false, browser: false, port: 0, help: false };
  for (let i = 0; i < args.length; i += 1) {
    const [option, joined] = split(args[i] ?? '');
    const value = (): string | undefined => joined ?? args[++i];
    if (option === '--demo') found.demo = true;
    else if (option === '--browser') found.browser = true;
    else if (option === '--help' || option === '-h') found.help = true;
    else if (option === '--data') found.dataDir = folderOf(option, value());
    else if (option === '--port') found.port = portOf(option, value());
    else stop({ kind: 'badOption', option: args[i] ?? '', problem: 'unknown' });
  }
  return found;
}

function split(arg: string): readonly [string, string | undefined] {
  const at = arg.indexOf('=');
  return arg.startsWith('--') && at > 0 ? [arg.slice(0, at), arg.slice(at + 1)] : [arg, undefined];
}

function folderOf(option: string, value: string | undefined): string {
  if (value === undefined || value === '' || value.startsWith('--'))
    return stop({ kind: 'badOption', option, problem: 'noFolder' });
  // npm runs scripts in the project's folder; INIT_CWD is where the person typed the command.
  return path.resolve(process.env['INIT_CWD'] ?? process.cwd(), value);
}

function portOf(option: string, value: string | undefined): number {
  const port = /^\d{1,5}$/.test(value ?? '') ? Number(value) : 0;
  return port >= 1024 && port <= 65535 ? port : stop({ kind: 'badOption', option, problem: 'port' });
}

function stop(refusal: StartRefusal): never {
  throw new StartStopped(refusal);
}

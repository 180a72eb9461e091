import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { bytesIn } from '../../core/shared/wire.ts';
import { defaultDataDir } from '../options.ts';
import { tell } from '../tell.ts';

/** Stops a command-line program with one sentence. */
export class CommandStopped extends Error {}

export type DoorArguments = {
  readonly help: boolean;
  readonly list: boolean;
  readonly name: string;
  readonly input: unknown;
  readonly dataDir: string;
  readonly as: string | null;
  readonly pin: string | null;
  readonly save: string | null;
};

/** @throws CommandStopped when the command line does not make sense */
export function readDoorArguments(args: readonly string[]): DoorArguments {
  const { values, positionals } = parsed(args);
  const [name = '', input = '{}', ...extra] = positionals;
  const noCall = values.help === true || values.list === true;
  if (!noCall && name === '') throw new CommandStopped(tell('start.door.noName'));
  if (extra.length > 0) throw new CommandStopped(tell('start.door.twoInputs', { extra: extra.join(' ') }));
  return {
    help: values.help === true,
    list: values.list === true,
    name,
    input: noCall ? {} : readInput(input === '-' ? readFileSync(0, 'utf8') : input),
    dataDir: values.data === undefined ? defaultDataDir() : fromWhereTyped(values.data),
    as: values.as ?? null,
    pin: values.pin ?? null,
    save: values.save === undefined ? null : fromWhereTyped(values.save),
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        help: { type: 'boolean', short: 'h' },
        list: { type: 'boolean' },
        data: { type: 'string' },
        as: { type: 'string' },
        pin: { type: 'string' },
        save: { type: 'string' },
      },
    });
  } catch (error) {
    throw new CommandStopped(error instanceof Error ? error.message : String(error));
  }
}

/** npm runs programs in the project's folder; a relative path means where the person stands. */
export function fromWhereTyped(file: string): string {
  return path.resolve(process.env['INIT_CWD'] ?? process.cwd(), file);
}

function readInput(text: string): unknown {
  try {
    return bytesIn(JSON.parse(text), (base64) => new Uint8Array(Buffer.from(base64, 'base64')));
  } catch (error) {
    const problem = error instanceof Error ? error.message : String(error);
    throw new CommandStopped(tell('start.door.notJson', { problem }));
  }
}

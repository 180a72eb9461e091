import type { BackupFile } from '../db/backup.ts';
import type { hostEntries } from '../shared/catalogue/host.ts';
import type { InputOf } from '../shared/entry.ts';
import { invariant } from '../shared/errors.ts';
import type { Reply } from '../shared/reply.ts';
import type { DemoView, HostInfo } from '../shared/views/host.ts';
import type { Link } from './link.ts';

export type HostName = keyof typeof hostEntries;

/** What the host's own actions work with. */
export type HostTools = {
  readonly core: Link;
  readonly info: Pick<HostInfo, 'dataDir' | 'isDemo' | 'version' | 'sqlite'>;
  /** Lets go of the file everywhere but in the writer. */
  closeReaders(): Promise<void>;
  reopen(): Promise<void>;
  openDemo(rebuild: boolean): Promise<void>;
  leaveDemo(): Promise<void>;
};

type Actions = {
  readonly [N in HostName]: (tools: HostTools, input: InputOf<(typeof hostEntries)[N]>) => Promise<Reply>;
};

const done = (value: unknown): Reply => ({ ok: true, value, touches: [] });
const now = (tools: HostTools, isDemo: boolean): DemoView => ({ dataDir: tools.info.dataDir, isDemo });

const actions: Actions = {
  'host.info': async ({ info }) => done({ ...info, node: process.versions.node } satisfies HostInfo),
  'host.backups': async ({ core }) => {
    const answer = await core.ask({ op: 'backups' });
    return answer.op === 'copies' ? done(answer.copies satisfies readonly BackupFile[]) : other(answer);
  },
  'host.backupNow': async ({ core }) => {
    const answer = await core.ask({ op: 'backup', reason: 'asked' });
    return answer.op === 'backedUp' ? done(answer.backup) : other(answer);
  },
  'host.restore': async (tools, { fileName }) => {
    await tools.closeReaders();
    const answer = await tools.core.ask({ op: 'restore', fileName });
    await tools.reopen();
    return answer.op === 'restored' ? done(answer.restored) : other(answer);
  },
  'host.openDemo': async (tools, { rebuild }) => {
    await tools.openDemo(rebuild);
    return done(now(tools, true));
  },
  'host.leaveDemo': async (tools) => {
    await tools.leaveDemo();
    return done(now(tools, false));
  },
};

function other(answer: { readonly op: string; readonly reply?: Reply }): Reply {
  invariant(answer.reply, `unexpected answer ${answer.op}`);
  return answer.reply;
}

export function isHostName(name: string): name is HostName {
  return Object.hasOwn(actions, name);
}

/** Carries out one of the host's own actions; its input was checked already. */
export function runHostAction(name: HostName, input: unknown, tools: HostTools): Promise<Reply> {
  const action = actions[name] as (tools: HostTools, input: unknown) => Promise<Reply>;
  return action(tools, input);
}

import type { Reply } from '#core/shared/reply.ts';
import type { RunningHost } from '../bridge/hostProcess.ts';
import { pagePost } from '../bridge/rawHttp.ts';

export type Door = (name: string, input: unknown, commandId?: string) => Promise<Reply>;

/** The window token of a running host, as its page gets it. */
export async function windowOf(host: RunningHost): Promise<string> {
  const answer = await pagePost(host.origin, '/session', { code: host.code });
  return `Bearer ${(JSON.parse(answer.body) as { token: string }).token}`;
}

/** The door of a running host for one window in which somebody holds `session`. */
export function doorAt(host: RunningHost, authorization: string, session: string): Door {
  return async (name, input, commandId) => {
    const call = { name, input, session, ...(commandId === undefined ? {} : { commandId }) };
    const { body } = await pagePost(host.origin, '/rpc', call, { authorization });
    return JSON.parse(body) as Reply;
  };
}

/** The door of a running host, as its page uses it. */
export async function doorOf(host: RunningHost, session: string): Promise<Door> {
  return doorAt(host, await windowOf(host), session);
}

/** The connection broke, as it does when the process at its other end is killed. Anything else is thrown. */
export function nullWhenGone(error: unknown): null {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (/^(ECONNRESET|ECONNREFUSED|EPIPE)$/.test(code)) return null;
  throw error;
}

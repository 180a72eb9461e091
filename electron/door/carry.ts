import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Call, Reply } from '../../core/shared/reply.ts';
import type { WhoIsHere } from '../../core/shared/views/people.ts';
import { bytesIn, bytesOut } from '../../core/shared/wire.ts';
import { tokenFileOf } from '../control.ts';
import { isGone, readOwner } from '../lock.ts';
import { openHost } from '../openHost.ts';
import { tell } from '../tell.ts';
import { CommandStopped } from './arguments.ts';

/** The way in: through the host that has the folder open, else through the folder itself. */
export type Way = { call(call: Call): Promise<Reply>; close(): Promise<void> };

/** @throws StartStopped, CommandStopped */
export async function openWay(dataDir: string): Promise<Way> {
  const owner = readOwner(dataDir);
  if (owner === null || isGone(owner) || owner.controlPort === 0) {
    const { service, close } = await openHost(dataDir, null);
    return { call: (call) => service.call(call), close };
  }
  const token = readFileSync(tokenFileOf(dataDir), 'utf8');
  return { call: (call) => overHttp(owner.controlPort, token, call), close: async () => undefined };
}

async function overHttp(port: number, token: string, call: Call): Promise<Reply> {
  const body = JSON.stringify(bytesOut(call, (bytes) => Buffer.from(bytes).toString('base64')));
  const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json' };
  const answer = await post(port, headers, body).catch(() => null);
  if (answer === null || !answer.ok) throw new CommandStopped(tell('start.door.hostSilent'));
  return bytesIn(await answer.json(), (text) => new Uint8Array(Buffer.from(text, 'base64'))) as Reply;
}

function post(port: number, headers: Readonly<Record<string, string>>, body: string): Promise<Response> {
  return fetch(`http://127.0.0.1:${port}/door`, { method: 'POST', headers, body });
}

/**
 * Carries out one call as a person of the shop: signs in, calls, signs out.
 * @throws CommandStopped when that person cannot sign in
 */
export async function callAs(way: Way, name: string, pin: string | null, call: Call): Promise<Reply> {
  const here = await way.call({ name: 'access.here', input: {} });
  if (!here.ok) return here;
  const { people } = here.value as WhoIsHere;
  const person = people.find((one) => one.name.toLowerCase() === name.toLowerCase());
  if (!person) {
    const names = people.map((one) => one.name).join(', ');
    throw new CommandStopped(tell('start.door.nobody', { name, people: names || '–' }));
  }
  const token = randomBytes(32).toString('hex');
  const input = { personId: person.id, token, ...(pin === null ? {} : { pin }) };
  const signedIn = await way.call({ name: 'access.signIn', input });
  if (!signedIn.ok) return signedIn;
  if (!(signedIn.value as { readonly signedIn: boolean }).signedIn)
    throw new CommandStopped(tell('start.door.pin', { name }));
  try {
    return await way.call({ ...call, session: token });
  } finally {
    await way.call({ name: 'access.signOut', input: { token } });
  }
}

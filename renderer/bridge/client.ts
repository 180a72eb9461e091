import { createContext, useContext } from 'react';
import type { EntryName, OutputFor, SentFor } from '#core/shared/catalogue.ts';
import type { PlainError } from '#core/shared/errors.ts';
import type { Host } from './host.ts';
import { lapseSession, sessionToken } from './session.ts';

/** A refusal as the core gave it. `ui` turns it into its sentence with `useSentence`. */
export class Refused extends Error {
  readonly refusal: PlainError;
  constructor(refusal: PlainError) {
    super(refusal.code);
    this.name = 'Refused';
    this.refusal = refusal;
  }
}

export const HostContext = createContext<Host | null>(null);

/** The host of this window. */
export function useHost(): Host {
  const host = useContext(HostContext);
  if (!host) throw new Error('no host around this component');
  return host;
}

/** `touches`: topics that a write made stale, or that the answer to a question hangs on. */
export type Sent<N extends EntryName> = {
  readonly value: OutputFor<N>;
  readonly touches: readonly string[];
};

/**
 * One call through the one door. A lost connection counts as WORKER_GONE: it may or may not have happened,
 * so repeating it needs the same command id.
 * @throws Refused with the core's refusal
 */
export async function send<N extends EntryName>(
  host: Host,
  name: N,
  input: SentFor<N>,
  commandId?: string,
): Promise<Sent<N>> {
  const session = sessionToken();
  const reply = await host
    .call({ name, input, ...(commandId ? { commandId } : {}), ...(session ? { session } : {}) })
    .catch((problem: unknown) => {
      console.error(problem);
      throw new Refused({ code: 'WORKER_GONE', data: {} });
    });
  if (!reply.ok) {
    if (reply.error.code === 'SESSION_ENDED') lapseSession();
    throw new Refused(reply.error);
  }
  return { value: reply.value as OutputFor<N>, touches: reply.touches };
}

/** The refusal inside whatever was thrown; anything else is a bug of the page. */
export function refusalOf(problem: unknown): PlainError {
  if (problem instanceof Refused) return problem.refusal;
  console.error(problem);
  return { code: 'INTERNAL', data: { reference: 'window' } };
}

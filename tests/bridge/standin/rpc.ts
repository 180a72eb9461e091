/** Calls both ways over one message port, each side with its own list of methods. */
// biome-ignore lint/suspicious/noExplicitAny: the one place where methods of every shape meet
export type Methods = Readonly<Record<string, (...args: any[]) => unknown>>;

export type Port = {
  send(message: unknown): void;
  listen(heard: (message: unknown) => void): void;
};

export type Rpc<Remote extends Methods> = {
  call<K extends keyof Remote & string>(
    method: K,
    ...args: Parameters<Remote[K]>
  ): Promise<Awaited<ReturnType<Remote[K]>>>;
  /** Fails everything that is still waiting: the other side is gone. */
  giveUp(why: string): void;
};

type Wire =
  | { readonly standin: 'ask'; readonly id: number; readonly method: string; readonly args: unknown[] }
  | { readonly standin: 'answer'; readonly id: number; readonly ok: true; readonly value: unknown }
  | { readonly standin: 'answer'; readonly id: number; readonly ok: false; readonly problem: string };

type Waiting = { readonly done: (value: never) => void; readonly fail: (error: Error) => void };

export function createRpc<Remote extends Methods>(port: Port, own: Methods): Rpc<Remote> {
  const waiting = new Map<number, Waiting>();
  let last = 0;
  const answer = async (message: Wire & { standin: 'ask' }): Promise<void> => {
    const { id } = message;
    try {
      const method = own[message.method];
      if (!method) throw new Error(`electron stand-in: nothing answers ${message.method}`);
      port.send({ standin: 'answer', id, ok: true, value: await method(...message.args) });
    } catch (error) {
      port.send({
        standin: 'answer',
        id,
        ok: false,
        problem: error instanceof Error ? error.message : `${error}`,
      });
    }
  };
  const settle = (message: Wire & { standin: 'answer' }): void => {
    const one = waiting.get(message.id);
    waiting.delete(message.id);
    if (message.ok) one?.done(message.value as never);
    else one?.fail(new Error(message.problem));
  };
  port.listen((raw) => {
    if (!isWire(raw)) return;
    if (raw.standin === 'ask') void answer(raw);
    else settle(raw);
  });
  return {
    call: (method, ...args) =>
      new Promise((done, fail) => {
        last += 1;
        waiting.set(last, { done, fail });
        port.send({ standin: 'ask', id: last, method, args } satisfies Wire);
      }),
    giveUp: (why) => {
      for (const one of waiting.values()) one.fail(new Error(why));
      waiting.clear();
    },
  };
}

function isWire(raw: unknown): raw is Wire {
  return typeof raw === 'object' && raw !== null && 'standin' in raw;
}

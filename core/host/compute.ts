import type { TaskCtx } from '../context.ts';
import { contract } from '../contract.ts';
import { DomainError, type PlainError } from '../shared/errors.ts';
import type { FromWorker, ToWorker } from './messages.ts';

/**
 * Runs a task's pure computation. Cancel is a shared flag, because the computation never yields:
 * a message would wait in the queue until it is over.
 */
export function computeTask(
  message: Extract<ToWorker, { op: 'compute' }>,
  cancelFlag: SharedArrayBuffer,
  say: (message: FromWorker) => void,
): FromWorker {
  const flag = new Int32Array(cancelFlag);
  const task: TaskCtx = {
    progress: (done, total, note) => say({ op: 'progress', id: message.id, done, total, note }),
    cancelled: () => Atomics.load(flag, 0) === message.id,
  };
  try {
    const handler = (contract as Readonly<Record<string, unknown>>)[message.name] as {
      run: (model: unknown, task: TaskCtx) => unknown;
    };
    // A task that was stopped answers with the best it had.
    const value = handler.run(message.model, task);
    return { op: 'reply', id: message.id, reply: { ok: true, value, touches: [] } };
  } catch (error) {
    if (error instanceof DomainError)
      return refused(message.id, { code: error.code, data: error.data } as PlainError);
    const reference = `T${message.id}`;
    say({
      op: 'log',
      line: `${reference} ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
    });
    return refused(message.id, { code: 'INTERNAL', data: { reference } });
  }
}

function refused(id: number, error: PlainError): FromWorker {
  return { op: 'reply', id, reply: { ok: false, error } };
}

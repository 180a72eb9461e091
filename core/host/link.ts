import { Worker } from 'node:worker_threads';
import { invariant } from '../shared/errors.ts';
import type { Reply } from '../shared/reply.ts';
import { type FromWorker, GONE, type ToWorker, type WorkerStart } from './messages.ts';

/** The start failed for a reason the person can act on (or null: a bug). */
export class StartError extends Error {
  readonly kind: 'busy' | 'full' | 'readonly' | 'damaged' | 'newer' | 'foreign' | null;
  constructor(kind: StartError['kind'], detail: string) {
    super(detail);
    this.name = 'StartError';
    this.kind = kind;
  }
}

export type LinkOptions = {
  readonly workerFile: string;
  readonly start: WorkerStart;
  readonly log: (line: string) => void;
  readonly onProgress: (id: number, done: number, total: number, note: unknown) => void;
};

type Answer = Exclude<FromWorker, { op: 'ready' | 'failed' | 'progress' | 'log' }>;
/** A request without its id: the link gives it one. */
export type Ask = ToWorker extends infer M ? (M extends { id: number } ? Omit<M, 'id'> : never) : never;

/** Room for short-lived objects. Node's own 48 MB a thread would be filled before it is first swept. */
const YOUNG_MB = 8;

/** One worker thread with its pending requests. When it dies, they fail plainly and it is started again. */
export class Link {
  readonly #options: LinkOptions;
  readonly #waiting = new Map<number, (answer: Answer) => void>();
  #worker: Worker | null = null;
  #ready: Promise<void> | null = null;
  #closing = false;
  #last = 0;

  constructor(options: LinkOptions) {
    this.#options = options;
  }

  /** @throws StartError when the worker cannot open the shop */
  async open(): Promise<void> {
    this.#closing = false;
    this.#ready = this.#spawn();
    await this.#ready;
  }

  /** Sends one request; a worker that was never opened is started by the first one. `id` may be reserved with `nextId` so that progress and cancel can name it. */
  async ask(message: Ask, id = this.nextId()): Promise<Answer> {
    this.#ready ??= this.#again();
    await this.#ready;
    return new Promise((resolve) => {
      this.#waiting.set(id, resolve);
      if (this.#worker) this.#worker.postMessage({ ...message, id });
      else this.#settle({ op: 'reply', id, reply: GONE });
    });
  }

  nextId(): number {
    this.#last += 1;
    return this.#last;
  }

  async close(): Promise<void> {
    if (!this.#worker) return;
    this.#closing = true;
    const worker = this.#worker;
    await this.ask({ op: 'close' });
    await worker.terminate();
    this.#worker = null;
  }

  #spawn(): Promise<void> {
    return new Promise((resolve, reject) => {
      const worker = new Worker(this.#options.workerFile, {
        workerData: this.#options.start,
        resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
      });
      worker.on('message', (message: FromWorker) => {
        if (message.op === 'ready') {
          this.#worker = worker;
          resolve();
        } else if (message.op === 'failed') reject(new StartError(message.kind, message.detail));
        else this.#receive(message);
      });
      worker.on('error', (error) => {
        this.#options.log(
          `worker ${this.#options.start.role} died: ${error instanceof Error ? error.stack : String(error)}`,
        );
        reject(new StartError(null, String(error)));
      });
      worker.on('exit', () => this.#gone(worker));
    });
  }

  #receive(message: Exclude<FromWorker, { op: 'ready' | 'failed' }>): void {
    if (message.op === 'log') this.#options.log(message.line);
    else if (message.op === 'progress')
      this.#options.onProgress(message.id, message.done, message.total, message.note);
    else this.#settle(message);
  }

  #settle(answer: Answer): void {
    const resolve = this.#waiting.get(answer.id);
    this.#waiting.delete(answer.id);
    resolve?.(answer);
  }

  #gone(worker: Worker): void {
    if (this.#worker !== worker) return;
    this.#worker = null;
    for (const id of [...this.#waiting.keys()]) this.#settle({ op: 'reply', id, reply: GONE });
    if (this.#closing) return;
    this.#ready = this.#again();
  }

  /** Starts without anybody to tell when it fails: what was asked is then answered as gone. */
  #again(): Promise<void> {
    return this.#spawn().catch((error: unknown) =>
      this.#options.log(`worker ${this.#options.start.role} does not start: ${String(error)}`),
    );
  }
}

/** The reply inside an answer; anything else is a bug in the worker. */
export function replyOf(answer: Answer): Reply {
  invariant(answer.op === 'reply', `unexpected answer ${answer.op}`);
  return answer.reply;
}

import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import path from 'node:path';
import type { Call, Reply } from '../shared/reply.ts';
import { buildDemo, clearHalfBuilt } from './demoShop.ts';
import { isHostName, runHostAction } from './hostActions.ts';
import { replyOf } from './link.ts';
import type { ServiceOptions } from './options.ts';
import { openTeam, type Team } from './team.ts';

export { StartError } from './link.ts';
export type { ServiceOptions } from './options.ts';

export type CallOptions = { readonly onProgress?: (done: number, total: number, note: unknown) => void };

/** The core as the shells see it: calls in, replies out, topics that became stale. */
export type Service = {
  call(call: Call, options?: CallOptions): Promise<Reply>;
  /** Asks the task with this command id to stop. */
  cancel(commandId: string): void;
  onTouched(listener: (topics: readonly string[]) => void): () => void;
  dataDir(): string;
  close(): Promise<void>;
};

const DAY_MS = 24 * 3_600_000;
const FIRST_COPY_MS = 8_000;
const demoDir = (dataDir: string): string => path.join(dataDir, 'demo');

/**
 * Starts the workers over a data folder.
 * @throws StartError with the storage fault when the shop file cannot be opened
 */
export async function startService(options: ServiceOptions): Promise<Service> {
  const service = new CoreService(options);
  await service.open(options.dataDir);
  return service;
}

class CoreService implements Service {
  readonly #options: ServiceOptions;
  readonly #listeners = new Set<(topics: readonly string[]) => void>();
  readonly #tasks = new Map<string, number>();
  readonly #progress = new Map<number, NonNullable<CallOptions['onProgress']>>();
  #team: Team | null = null;
  #dataDir = '';
  #timer: NodeJS.Timeout | null = null;
  #first: NodeJS.Timeout | null = null;
  /** The day's copy did not read cleanly: nothing more is written until the file is opened anew. */
  #damaged = false;

  constructor(options: ServiceOptions) {
    this.#options = options;
  }

  async open(dataDir: string): Promise<void> {
    clearHalfBuilt(demoDir(this.#options.dataDir));
    this.#team = await openTeam({
      ...this.#options,
      dataDir,
      onProgress: (id, done, total, note) => this.#progress.get(id)?.(done, total, note),
    });
    this.#dataDir = dataDir;
    this.#damaged = false;
    this.#timer = setInterval(() => void this.#dailyBackup(), DAY_MS / 24);
    this.#timer.unref();
    this.#first = setTimeout(() => void this.#dailyBackup(), this.#options.firstCopyMs ?? FIRST_COPY_MS);
    this.#first.unref();
  }

  async call(call: Call, options: CallOptions = {}): Promise<Reply> {
    const team = this.#team;
    if (!team) return { ok: false, error: { code: 'WORKER_GONE', data: {} } };
    if (isHostName(call.name)) return this.#hostCall(team, call, options);
    if (team.about.kinds[call.name] !== 'write') return this.#answer(team, call, options);
    if (this.#damaged) return { ok: false, error: { code: 'STORAGE', data: { kind: 'damaged' } } };
    const reply = replyOf(await team.core.ask({ op: 'call', call }));
    if (reply.ok) this.#touch(reply.touches);
    return reply;
  }

  cancel(commandId: string): void {
    const id = this.#tasks.get(commandId);
    if (id !== undefined) this.#team?.cancel(id);
  }

  onTouched(listener: (topics: readonly string[]) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  dataDir(): string {
    return this.#dataDir;
  }

  async close(): Promise<void> {
    if (this.#timer) clearInterval(this.#timer);
    if (this.#first) clearTimeout(this.#first);
    const team = this.#team;
    this.#team = null;
    await team?.close();
  }

  /** Reads and documents are answered by the views worker; a gathered task goes on to the solver. */
  async #answer(team: Team, call: Call, options: CallOptions): Promise<Reply> {
    const answer = await team.views.ask({ op: 'call', call });
    if (answer.op !== 'gathered') return replyOf(answer);
    const commandId = call.commandId ?? randomUUID();
    const id = team.solver.nextId();
    this.#tasks.set(commandId, id);
    if (options.onProgress) this.#progress.set(id, options.onProgress);
    try {
      return replyOf(await team.solver.ask({ op: 'compute', name: answer.name, model: answer.model }, id));
    } finally {
      this.#tasks.delete(commandId);
      this.#progress.delete(id);
    }
  }

  async #hostCall(team: Team, call: Call, options: CallOptions): Promise<Reply> {
    const allowed = replyOf(await team.core.ask({ op: 'allowed', call }));
    if (!allowed.ok || !isHostName(call.name)) return allowed;
    return runHostAction(call.name, allowed.value, {
      core: team.core,
      info: {
        dataDir: this.#dataDir,
        isDemo: this.#isDemo(),
        version: this.#options.version,
        sqlite: team.about.sqlite,
      },
      reopen: () => this.#reopen(this.#dataDir),
      openDemo: (rebuild) => this.#openDemo(rebuild, options),
      leaveDemo: () => this.#reopen(this.#options.dataDir),
    });
  }

  #isDemo(): boolean {
    return this.#dataDir === demoDir(this.#options.dataDir);
  }

  async #openDemo(rebuild: boolean, { onProgress }: CallOptions): Promise<void> {
    const dir = demoDir(this.#options.dataDir);
    if (this.#isDemo()) await this.close();
    if (rebuild || !existsSync(path.join(dir, 'rakelight.sqlite'))) {
      await buildDemo({ ...this.#options, dataDir: dir, onProgress: onProgress ?? (() => {}) });
    }
    await this.#reopen(dir);
  }

  async #reopen(dataDir: string): Promise<void> {
    await this.close();
    await this.open(dataDir);
    this.#touch(['*']);
  }

  #touch(topics: readonly string[]): void {
    for (const listener of this.#listeners) listener(topics);
  }

  async #dailyBackup(): Promise<void> {
    const team = this.#team;
    if (!team) return;
    const copies = await team.core.ask({ op: 'backups' });
    const newest = copies.op === 'copies' ? copies.copies.find((b) => b.reason === 'daily') : undefined;
    if (newest && Date.now() - newest.atMs < DAY_MS) return;
    const made = await team.core.ask({ op: 'backup', reason: 'daily' });
    const error = made.op === 'reply' && !made.reply.ok ? made.reply.error : null;
    if (error?.code === 'STORAGE' && error.data.kind === 'damaged') this.#damaged = true;
  }
}

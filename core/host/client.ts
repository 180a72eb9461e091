import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import path from 'node:path';
import type { BackupFile } from '../db/backup.ts';
import type { Call, Reply } from '../shared/reply.ts';
import { buildDemo, clearHalfBuilt } from './demoShop.ts';
import { isHostName, runHostAction } from './hostActions.ts';
import { replyOf } from './link.ts';
import { GONE } from './messages.ts';
import type { ServiceOptions } from './options.ts';
import { openTeam, type Team } from './team.ts';

export { StartError } from './link.ts';
export type { ServiceOptions } from './options.ts';

export type CallOptions = { readonly onProgress?: (done: number, total: number, note: unknown) => void };

/** The core as the shells see it: calls in, replies out, topics that became stale. */
export type Service = {
  call(call: Call, options?: CallOptions): Promise<Reply>;
  /** Opens the demo shop for whoever starts the program, before any window asks. */
  openDemo(rebuild: boolean, options?: CallOptions): Promise<void>;
  /** Asks the task with this command id to stop. */
  cancel(commandId: string): void;
  onTouched(listener: (topics: readonly string[]) => void): () => void;
  dataDir(): string;
  close(): Promise<void>;
};

const DAY_MS = 24 * 3_600_000;
const FIRST_COPY_MS = 8_000;
/** Host actions after which another file is open. */
const SWITCHES: ReadonlySet<string> = new Set(['host.restore', 'host.openDemo', 'host.leaveDemo']);
/** What is asked for without any input. */
const NOTHING_ASKED: Reply = { ok: true, value: {}, touches: [] };
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
  #hasShop = false;
  #timer: NodeJS.Timeout | null = null;
  #first: NodeJS.Timeout | null = null;
  #switching: Promise<unknown> = Promise.resolve();
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
    if (isHostName(call.name))
      return SWITCHES.has(call.name)
        ? this.#inTurn(() => this.#hostCall(call, options))
        : this.#hostCall(call, options);
    const team = this.#team;
    if (!team) return GONE;
    if (team.about.kinds[call.name] !== 'write') return this.#answer(team, call, options);
    if (this.#damaged) return { ok: false, error: { code: 'STORAGE', data: { kind: 'damaged' } } };
    const reply = replyOf(await team.core.ask({ op: 'call', call }));
    if (reply.ok) this.#touch(reply.touches);
    return reply;
  }

  async openDemo(rebuild: boolean, options: CallOptions = {}): Promise<void> {
    await this.#inTurn(() => this.#openDemo(rebuild, options));
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

  /** What switches the file waits for what switches it already. */
  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#switching.then(work);
    this.#switching = turn.catch(() => undefined);
    return turn;
  }

  async #hostCall(call: Call, options: CallOptions): Promise<Reply> {
    const team = this.#team;
    if (!team) return GONE;
    const allowed = this.#isWayBack(call)
      ? NOTHING_ASKED
      : replyOf(await team.core.ask({ op: 'allowed', call }));
    if (!allowed.ok || !isHostName(call.name)) return allowed;
    return runHostAction(call.name, allowed.value, {
      core: team.core,
      info: {
        dataDir: this.#dataDir,
        isDemo: this.#isDemo(),
        version: this.#options.version,
        sqlite: team.about.sqlite,
      },
      closeReaders: async () => void (await Promise.all([team.views.close(), team.solver.close()])),
      reopen: () => this.#reopen(this.#dataDir),
      openDemo: (rebuild) => this.#openDemo(rebuild, options),
      leaveDemo: () => this.#reopen(this.#options.dataDir),
    });
  }

  /** Out of the demo shop to a folder that has no shop yet, and so no owner to ask. */
  #isWayBack(call: Call): boolean {
    return call.name === 'host.leaveDemo' && this.#isDemo() && !this.#hasShop;
  }

  /** Remembers, while the folder's own file is still open, whether there is a shop to come back to. */
  async #noteShop(): Promise<void> {
    if (this.#isDemo()) return;
    const answer = await this.#team?.core.ask({ op: 'about' });
    this.#hasShop = answer?.op === 'about' && answer.about.isSetUp;
  }

  #isDemo(): boolean {
    return this.#dataDir === demoDir(this.#options.dataDir);
  }

  async #openDemo(rebuild: boolean, { onProgress }: CallOptions): Promise<void> {
    const dir = demoDir(this.#options.dataDir);
    await this.#noteShop();
    if (this.#isDemo()) await this.close();
    try {
      if (rebuild || !existsSync(path.join(dir, 'rakelight.sqlite')))
        await buildDemo({ ...this.#options, dataDir: dir, onProgress: onProgress ?? (() => {}) });
    } catch (error) {
      if (!this.#team) await this.#reopen(dir);
      throw error;
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
    const now = Date.now();
    // A copy from the future was made while the clock was wrong: it says nothing about today.
    const isOfToday = (b: BackupFile): boolean =>
      b.reason === 'daily' && b.atMs <= now && now - b.atMs < DAY_MS;
    if (copies.op === 'copies' && copies.copies.some(isOfToday)) return;
    const made = await team.core.ask({ op: 'backup', reason: 'daily' });
    const error = made.op === 'reply' && !made.reply.ok ? made.reply.error : null;
    if (error?.code === 'STORAGE' && error.data.kind === 'damaged') this.#damaged = true;
  }
}

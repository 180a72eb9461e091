import { Link, type LinkOptions } from './link.ts';
import type { WorkerRole } from './messages.ts';
import type { ServiceOptions } from './options.ts';

/** The three workers of an open shop: the only writer, the readers, the solver. */
export type Team = {
  readonly core: Link;
  readonly views: Link;
  readonly solver: Link;
  cancel(taskId: number): void;
  close(): Promise<void>;
};

type TeamOptions = Pick<ServiceOptions, 'dataDir' | 'migrationsDir' | 'workerFile' | 'log'> &
  Pick<LinkOptions, 'onProgress'>;

/**
 * Opens the writer first: it brings the file up to date before anybody reads it. The solver starts with the first
 * long computation: many days have none, and a thread takes 30 MB.
 */
export async function openTeam(options: TeamOptions): Promise<Team> {
  const flag = new SharedArrayBuffer(4);
  const link = (role: WorkerRole): Link =>
    new Link({
      workerFile: options.workerFile,
      start: { role, dataDir: options.dataDir, migrationsDir: options.migrationsDir, cancelFlag: flag },
      log: options.log,
      onProgress: options.onProgress,
    });
  const core = link('core');
  const views = link('views');
  const solver = link('solver');
  await core.open();
  await views.open();
  return {
    core,
    views,
    solver,
    cancel: (taskId) => {
      Atomics.store(new Int32Array(flag), 0, taskId);
    },
    // Readers first: the writer's close then folds the log into the file.
    close: async () => {
      await Promise.all([views.close(), solver.close()]);
      await core.close();
    },
  };
}

import { invariant } from '../shared/errors.ts';
import { Link, type LinkOptions } from './link.ts';
import type { About, WorkerRole } from './messages.ts';
import type { ServiceOptions } from './options.ts';

/** The three workers of an open shop: the only writer, the readers, the solver. */
export type Team = {
  readonly core: Link;
  readonly views: Link;
  readonly solver: Link;
  readonly about: About;
  cancel(taskId: number): void;
  close(): Promise<void>;
};

type TeamOptions = Pick<ServiceOptions, 'dataDir' | 'migrationsDir' | 'workerFile' | 'log' | 'quietMs'> &
  Pick<LinkOptions, 'onProgress'>;

/**
 * Starts writer and readers beside each other; the writer brings the file up to date before anybody reads it. The
 * solver starts with the first long computation: many days have none, and a thread takes 30 MB.
 * @throws StartError when the writer cannot open the shop
 */
export async function openTeam(options: TeamOptions): Promise<Team> {
  const cancelFlag = new SharedArrayBuffer(4);
  const { dataDir, migrationsDir, quietMs } = options;
  const link = (role: WorkerRole): Link =>
    new Link({
      workerFile: options.workerFile,
      start: { role, dataDir, migrationsDir, cancelFlag, quietMs },
      log: options.log,
      onProgress: options.onProgress,
    });
  const core = link('core');
  const views = link('views');
  const solver = link('solver');
  const readers = views.open();
  try {
    await core.open();
    await readers;
  } catch (error) {
    await readers.then(() => views.close()).catch(() => undefined);
    throw error;
  }
  return {
    core,
    views,
    solver,
    about: await askAbout(core),
    cancel: (taskId) => {
      Atomics.store(new Int32Array(cancelFlag), 0, taskId);
    },
    // Readers first: the writer's close then folds the log into the file.
    close: async () => {
      await Promise.all([views.close(), solver.close()]);
      await core.close();
    },
  };
}

async function askAbout(core: Link): Promise<About> {
  const answer = await core.ask({ op: 'about' });
  invariant(answer.op === 'about', `unexpected answer ${answer.op}`);
  return answer.about;
}

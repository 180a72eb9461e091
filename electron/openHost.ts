import { type Service, StartError, startService } from '../core/host/client.ts';
import { type Asked, type Control, startControl } from './control.ts';
import { prepareFolder } from './dataFolder.ts';
import { takeLock } from './lock.ts';
import { MIGRATIONS_DIR, SEED_FILE, versionOf, WORKER_FILE } from './paths.ts';
import { StartStopped } from './refusal.ts';

/** A data folder opened by this process and nobody else. */
export type OpenHost = {
  readonly service: Service;
  close(): Promise<void>;
};

/**
 * Opens a data folder: checked, locked, its workers started, reachable for the command line.
 * @throws StartStopped when the folder will not do; then nothing in it was changed
 */
export async function openHost(dataDir: string, asked: Asked | null): Promise<OpenHost> {
  prepareFolder(dataDir);
  const lock = takeLock(dataDir);
  try {
    const service = await startService({
      dataDir,
      migrationsDir: MIGRATIONS_DIR,
      workerFile: WORKER_FILE,
      seedFile: SEED_FILE,
      version: versionOf(),
      log: (line) => console.error(line),
    });
    const control = asked === null ? null : await startControl(dataDir, service, asked);
    if (control !== null) lock.announce(control.port);
    return { service, close: () => closeAll(service, control, lock.release) };
  } catch (error) {
    lock.release();
    if (error instanceof StartError && error.kind !== null)
      throw new StartStopped({ kind: 'storage', folder: dataDir, fault: error.kind });
    throw error;
  }
}

async function closeAll(service: Service, control: Control | null, release: () => void): Promise<void> {
  await control?.close();
  await service.close();
  release();
}

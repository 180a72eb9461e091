import { execFileSync } from 'node:child_process';
import { accessSync, constants, existsSync, mkdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { StartStopped } from './refusal.ts';

/** File systems that other computers can write at the same time; SQLite's locks do not hold there. */
const SHARED =
  /^(nfs\d?|cifs|smb\d?|smbfs|afpfs|webdav|davfs|fuse\.(sshfs|davfs2?|rclone|s3fs)|ncpfs|afs|ceph|fuse\.ceph|glusterfs|fuse\.glusterfs)$/;

/** Files by which a sync service marks a folder that it copies. */
const SYNC_MARKS = [
  '.stfolder',
  '.dropbox',
  '.dropbox.cache',
  '.sync_root',
  '.nextcloudsync.log',
  '.owncloudsync.log',
];

/**
 * Says whether a shop's data may lie in this folder. Changes nothing.
 * @throws StartStopped networkShare, syncFolder, notWritable
 */
export function checkFolder(folder: string, mounts: readonly Mount[] = readMounts()): void {
  const stand = nearestExisting(folder);
  const real = realpathSync.native(stand);
  const system = sharedSystem(real, mounts);
  if (system !== null) throw new StartStopped({ kind: 'networkShare', folder, system });
  const synced = syncedParent(real);
  if (synced !== null) throw new StartStopped({ kind: 'syncFolder', folder, synced });
  if (!statSync(stand).isDirectory()) notWritable(folder, `${stand} is a file`);
  attempt(folder, () => accessSync(stand, constants.W_OK | constants.X_OK));
  const database = path.join(folder, 'rakelight.sqlite');
  if (existsSync(database)) attempt(folder, () => accessSync(database, constants.R_OK | constants.W_OK));
}

/**
 * Checks the folder and makes it, readable by its owner only.
 * @throws StartStopped as `checkFolder`
 */
export function prepareFolder(folder: string): void {
  checkFolder(folder);
  attempt(folder, () => mkdirSync(folder, { recursive: true, mode: 0o700 }));
}

export type Mount = { readonly at: string; readonly system: string };

/** What is mounted where, on systems that tell. */
export function readMounts(): readonly Mount[] {
  if (process.platform === 'linux') return linuxMounts(readFileSync('/proc/self/mountinfo', 'utf8'));
  if (process.platform === 'darwin') return macMounts(execFileSync('/sbin/mount', { encoding: 'utf8' }));
  return [];
}

/** `36 35 98:0 / /mnt/x rw,… - ext3 /dev/x rw`: the place is the fifth field, the system follows the dash. */
export function linuxMounts(text: string): readonly Mount[] {
  return text.split('\n').flatMap((line) => {
    const fields = line.split(' ');
    const at = fields[4];
    const system = fields[fields.indexOf('-') + 1];
    return at && system ? [{ at: at.replaceAll('\\040', ' '), system }] : [];
  });
}

/** `//host/share on /Volumes/x (smbfs, nodev)`. */
export function macMounts(text: string): readonly Mount[] {
  return [...text.matchAll(/^.+ on (.+) \(([^,)]+)/gm)].map((m) => ({ at: m[1] ?? '', system: m[2] ?? '' }));
}

function sharedSystem(real: string, mounts: readonly Mount[]): string | null {
  // Windows resolves a mapped drive to its \\server\share.
  if (real.startsWith('\\\\') && !real.startsWith('\\\\?\\')) return real.split('\\').slice(0, 4).join('\\');
  const holding = mounts.filter(({ at }) => real === at || real.startsWith(at.endsWith('/') ? at : `${at}/`));
  // Of several mounts on one place the last one is seen.
  const nearest = holding.reduce<Mount | null>(
    (best, mount) => (best === null || mount.at.length >= best.at.length ? mount : best),
    null,
  );
  return nearest !== null && SHARED.test(nearest.system) ? nearest.system : null;
}

function syncedParent(real: string): string | null {
  const library = path.join(os.homedir(), 'Library');
  const roots = [
    process.env['OneDrive'],
    process.env['OneDriveCommercial'],
    path.join(library, 'Mobile Documents'),
    path.join(library, 'CloudStorage'),
  ].filter((root): root is string => root !== undefined && root !== '');
  for (let at = real; ; at = path.dirname(at)) {
    if (roots.includes(at) || SYNC_MARKS.some((mark) => existsSync(path.join(at, mark)))) return at;
    if (path.dirname(at) === at) return null;
  }
}

function nearestExisting(folder: string): string {
  let at = folder;
  while (!existsSync(at) && path.dirname(at) !== at) at = path.dirname(at);
  return at;
}

function attempt(folder: string, act: () => void): void {
  try {
    act();
  } catch (error) {
    notWritable(folder, error instanceof Error && 'code' in error ? String(error.code) : String(error));
  }
}

function notWritable(folder: string, detail: string): never {
  throw new StartStopped({ kind: 'notWritable', folder, detail });
}

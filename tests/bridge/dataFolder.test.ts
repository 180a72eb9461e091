import { mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkFolder, linuxMounts, type Mount, macMounts } from '../../electron/dataFolder.ts';
import { hasDisplay } from '../../electron/openBrowser.ts';
import { defaultDataDir, readOptions } from '../../electron/options.ts';
import { StartStopped } from '../../electron/refusal.ts';
import { freshDataDir } from './desktopApp.ts';

let base: string;

beforeEach(() => {
  base = freshDataDir();
});
afterEach(() => {
  rmSync(base, { recursive: true, force: true });
});

function refusalOf(folder: string, mounts: readonly Mount[]): string {
  try {
    checkFolder(folder, mounts);
    return 'none';
  } catch (error) {
    return error instanceof StartStopped ? error.refusal.kind : String(error);
  }
}

describe('where a shop’s data may lie', () => {
  const root: Mount = { at: '/', system: 'ext4' };

  it.each(['nfs', 'nfs4', 'cifs', 'smb3', 'smbfs', 'fuse.sshfs', 'webdav'])(
    'is not on a share of kind %s, also when the folder is still to be made',
    (system) => {
      expect(refusalOf(path.join(base, 'new', 'shop'), [root, { at: base, system }])).toBe('networkShare');
    },
  );

  it('is on the own disk, also beside and above a share', () => {
    mkdirSync(path.join(base, 'share'));
    const share: Mount = { at: path.join(base, 'share'), system: 'nfs4' };
    expect(refusalOf(path.join(base, 'shop'), [root, share])).toBe('none');
    expect(refusalOf(path.join(base, 'share-too'), [root, share])).toBe('none');
    expect(refusalOf(path.join(base, 'share'), [root, share])).toBe('networkShare');
  });

  it('counts the last mount on a place, which hides the earlier ones', () => {
    expect(refusalOf(base, [root, { at: base, system: 'nfs' }, { at: base, system: 'ext4' }])).toBe('none');
  });

  it('reads mounts as Linux and macOS write them', () => {
    const line = '36 25 0:41 / /mnt/two\\040words rw,relatime shared:2 master:1 - nfs4 host:/x rw,vers=4.2';
    expect(linuxMounts(`${line}\n`)).toEqual([{ at: '/mnt/two words', system: 'nfs4' }]);
    expect(macMounts('//u@host/share on /Volumes/two words (smbfs, nodev, nosuid)\n')).toEqual([
      { at: '/Volumes/two words', system: 'smbfs' },
    ]);
  });

  it('is by default the system’s own place for a program’s data', () => {
    const at = (platform: NodeJS.Platform, env: Record<string, string>): string =>
      defaultDataDir({ platform, env, home: '/home/dev' });
    expect(at('linux', {})).toBe('/home/dev/.local/share/rakelight');
    expect(at('linux', { XDG_DATA_HOME: '/data' })).toBe('/data/rakelight');
    expect(at('darwin', {})).toBe('/home/dev/Library/Application Support/rakelight');
    expect(at('win32', { LOCALAPPDATA: '/local' })).toBe('/local/rakelight');
  });

  it('is read from --data in either form', () => {
    expect(readOptions(['--data=/a b']).dataDir).toBe('/a b');
    expect(readOptions(['--data', '/a b', '--demo'])).toMatchObject({ dataDir: '/a b', demo: true, port: 0 });
  });
});

describe('a display', () => {
  it('is there on Linux only with a display server, elsewhere always', () => {
    expect(hasDisplay('linux', {})).toBe(false);
    expect(hasDisplay('linux', { DISPLAY: '' })).toBe(false);
    expect(hasDisplay('linux', { WAYLAND_DISPLAY: 'wayland-0' })).toBe(true);
    expect(hasDisplay('win32', {})).toBe(true);
  });
});

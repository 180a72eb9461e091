import type { ErrorData } from '../shared/errors.ts';

export type StorageKind = ErrorData['STORAGE']['kind'];

/** The file or the disk stops us: each kind has its own screen and its own way out. */
export class StorageFault extends Error {
  readonly kind: StorageKind;
  constructor(kind: StorageKind, detail: string) {
    super(detail);
    this.name = 'StorageFault';
    this.kind = kind;
  }
}

/** Which storage fault an error from SQLite or the file system is, or null when it is something else. */
export function storageKindOf(error: unknown): StorageKind | null {
  if (error instanceof StorageFault) return error.kind;
  const code = typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
  if (/^SQLITE_(BUSY|LOCKED)/.test(code)) return 'busy';
  if (/^(SQLITE_FULL|ENOSPC|EDQUOT)/.test(code)) return 'full';
  if (/^(SQLITE_READONLY|SQLITE_CANTOPEN|SQLITE_PERM|EROFS|EACCES|EPERM)/.test(code)) return 'readonly';
  if (/^(SQLITE_CORRUPT|SQLITE_NOTADB|SQLITE_IOERR)/.test(code)) return 'damaged';
  return null;
}

import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/** A window's token: 32 random bytes in hex, made by the window itself so that no reply ever carries one. */
export const TOKEN = /^[0-9a-f]{64}$/;

/** What is stored of a token: its SHA-256 in hex. */
export function tokenHash(token: string): string {
  return bytesToHex(sha256(utf8ToBytes(token)));
}

import { scrypt } from '@noble/hashes/scrypt.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/** Cost 2^15, block 8, 1 lane: about 0.15 s and 32 MB a try. @source RFC 7914, parameters common practice */
const COST_LOG2 = 15;
const BLOCK = 8;

/** What is stored of a PIN: `scrypt$15$8$<salt>$<hex>`. The salt is any text that is used once. */
export function hashPin(pin: string, salt: string): string {
  return `scrypt$${COST_LOG2}$${BLOCK}$${salt}$${derive(pin, salt, COST_LOG2, BLOCK)}`;
}

/** True when the PIN is the one that was hashed. Compares every digit, whatever the first difference. */
export function pinFits(pin: string, stored: string): boolean {
  const [, cost = '', block = '', salt = '', hex = ''] = stored.split('$');
  const mine = derive(pin, salt, Number(cost), Number(block));
  let differs = mine.length === hex.length ? 0 : 1;
  for (let i = 0; i < mine.length; i += 1) differs |= mine.charCodeAt(i) ^ hex.charCodeAt(i);
  return differs === 0;
}

function derive(pin: string, salt: string, costLog2: number, block: number): string {
  const key = scrypt(utf8ToBytes(pin), utf8ToBytes(salt), { N: 2 ** costLog2, r: block, p: 1, dkLen: 32 });
  return bytesToHex(key);
}

/** Plain data as JSON can carry it: bytes become `{ $bytes: base64 }`. */

type Bytes64 = { readonly $bytes: string };

/**
 * Replaces every `Uint8Array` in plain data by `{ $bytes }`; all else stays.
 * @param toBase64 the host's own way of writing base64
 */
export function bytesOut(value: unknown, toBase64: (bytes: Uint8Array) => string): unknown {
  if (value instanceof Uint8Array) return { $bytes: toBase64(value) } satisfies Bytes64;
  if (Array.isArray(value)) return value.map((part) => bytesOut(part, toBase64));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, bytesOut(part, toBase64)]));
}

/**
 * Turns every `{ $bytes }` with nothing else beside it back into a `Uint8Array`.
 * @param fromBase64 the host's own way of reading base64
 */
export function bytesIn(value: unknown, fromBase64: (text: string) => Uint8Array): unknown {
  if (Array.isArray(value)) return value.map((part) => bytesIn(part, fromBase64));
  if (typeof value !== 'object' || value === null) return value;
  if (isBytes64(value)) return fromBase64(value.$bytes);
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, bytesIn(part, fromBase64)]));
}

function isBytes64(value: object): value is Bytes64 {
  return Object.keys(value).length === 1 && '$bytes' in value && typeof value.$bytes === 'string';
}

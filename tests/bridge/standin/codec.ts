/** What structured clone carries, as JSON for the way between the browser's worlds and the test process. */
type Tagged = { readonly $kind: string; readonly of?: string | number };

export function pack(value: unknown): unknown {
  if (value === undefined) return { $kind: 'undefined' } satisfies Tagged;
  if (typeof value === 'bigint') return { $kind: 'bigint', of: String(value) } satisfies Tagged;
  if (value === null || typeof value !== 'object') return value;
  if (value instanceof Date) return { $kind: 'date', of: value.getTime() } satisfies Tagged;
  if (value instanceof Uint8Array)
    return { $kind: 'bytes', of: Buffer.from(value).toString('base64') } satisfies Tagged;
  if (Array.isArray(value)) return value.map(pack);
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, pack(part)]));
}

export function unpack(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(unpack);
  if (value === null || typeof value !== 'object') return value;
  if ('$kind' in value) return untag(value as Tagged);
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, unpack(part)]));
}

function untag({ $kind, of }: Tagged): unknown {
  if ($kind === 'date') return new Date(Number(of));
  if ($kind === 'bigint') return BigInt(String(of));
  if ($kind === 'bytes') return new Uint8Array(Buffer.from(String(of), 'base64'));
  return undefined;
}

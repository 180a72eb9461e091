import fc from 'fast-check';

/** What no field of any command is made of, or hardly any. */
const JUNK: readonly unknown[] = [
  null,
  undefined,
  '',
  ' ',
  'x'.repeat(100_000),
  '\ud800',
  'a\udc00b',
  'nul\u0000nul',
  '__proto__',
  -1,
  0,
  1.5,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  -1e308,
  2 ** 53,
  1e21,
  true,
  [],
  [[]],
  {},
  JSON.parse('{"__proto__": {"role": "owner"}}'),
  { constructor: { prototype: {} } },
  new Date(0),
  10n,
];
const EXTRA = ['more', 'role', 'constructor', '__proto__', 'toString', 'length'] as const;

type Path = readonly (string | number)[];

/** Takes well-formed input and spoils it in one to three places: another value, a field too many, one too few. */
export function spoiled(good: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> {
  const change = fc.record({
    at: fc.nat(),
    how: fc.constantFrom('junk', 'junk', 'junk', 'drop', 'add'),
    junk: fc.constantFrom(...JUNK),
    name: fc.constantFrom(...EXTRA),
  });
  const whole = fc.constantFrom(...JUNK);
  const parts = fc
    .tuple(good, fc.array(change, { minLength: 1, maxLength: 3 }))
    .map(([value, changes]) => changes.reduce<unknown>((v, c) => spoil(v, c), value));
  return fc.oneof({ weight: 12, arbitrary: parts }, whole);
}

type Change = {
  readonly at: number;
  readonly how: string;
  readonly junk: unknown;
  readonly name: string;
};

function spoil(value: unknown, { at, how, junk, name }: Change): unknown {
  const paths = pathsOf(value);
  const path = paths[at % paths.length] ?? [];
  if (how === 'add') return changed(value, [...ownerOf(value, path), name], junk, false);
  return changed(value, path, junk, how === 'drop');
}

/** The nearest object that holds a path's end. */
function ownerOf(value: unknown, path: Path): Path {
  const found = path.reduce<unknown>((v, key) => (v as Record<string, unknown> | undefined)?.[key], value);
  return typeof found === 'object' && found !== null ? path : path.slice(0, -1);
}

function pathsOf(value: unknown, at: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [at];
  const keys = Array.isArray(value) ? value.map((_, i) => i) : Object.keys(value);
  return [at, ...keys.flatMap((key) => pathsOf((value as Record<string, unknown>)[key], [...at, key]))];
}

function changed(value: unknown, path: Path, put: unknown, drop: boolean): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return drop ? undefined : put;
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value) && typeof key === 'string') return [...value, put];
  const copy = (Array.isArray(value) ? [...value] : { ...value }) as Record<string | number, unknown>;
  if (rest.length === 0 && drop) delete copy[key];
  else {
    const next = rest.length === 0 ? put : changed(copy[key], rest, put, drop);
    Object.defineProperty(copy, key, { value: next, enumerable: true, configurable: true, writable: true });
  }
  return copy;
}

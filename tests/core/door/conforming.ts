import fc from 'fast-check';
import type { z } from 'zod';
import type { Pool } from './pool.ts';

type Def = {
  readonly type: string;
  readonly format?: string;
  readonly shape?: Readonly<Record<string, Schema>>;
  readonly innerType?: Schema;
  readonly element?: Schema;
  readonly in?: Schema;
  readonly options?: readonly Schema[];
  readonly items?: readonly Schema[];
  readonly entries?: Readonly<Record<string, string>>;
  readonly values?: readonly unknown[];
  readonly checks?: readonly { readonly _zod: { readonly def: Check } }[];
};
type Check = {
  readonly check: string;
  readonly value?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly length?: number;
};
type Schema = z.ZodType & { readonly _zod: { readonly def: Def } };
type Bounds = { readonly least?: number; readonly most?: number };

function boundsOf(def: Def): Bounds {
  const checks = (def.checks ?? []).map((c) => c._zod.def);
  const value = (...names: readonly string[]): number | undefined => {
    const found = checks.find((c) => names.includes(c.check));
    return found?.value ?? found?.minimum ?? found?.maximum ?? found?.length;
  };
  const least = value('greater_than', 'min_length', 'length_equals');
  const most = value('less_than', 'max_length', 'length_equals');
  return { ...(least === undefined ? {} : { least }), ...(most === undefined ? {} : { most }) };
}

/** Input as a schema describes it, with the shop's own ids, days and revisions; refinements are not looked at. */
export function conforming(schema: z.ZodType, pool: Pool, field = ''): fc.Arbitrary<unknown> {
  const { def } = (schema as Schema)._zod;
  const inner = (of: z.ZodType | undefined): fc.Arbitrary<unknown> => {
    if (!of) throw new Error(`no inner schema at ${field}`);
    return conforming(of, pool, field);
  };
  switch (def.type) {
    case 'object':
      return recordOf(def.shape ?? {}, pool);
    case 'string':
      return texts(schema, boundsOf(def), pool, field);
    case 'number':
      return numbers(def.format === 'safeint', boundsOf(def), pool, field);
    case 'boolean':
      return fc.boolean();
    case 'enum':
      return fc.constantFrom(...Object.values(def.entries ?? {}));
    case 'literal':
      return fc.constantFrom(...(def.values ?? []));
    case 'array':
      return lists(inner(def.element), boundsOf(def));
    case 'tuple':
      return fc.tuple(...(def.items ?? []).map(inner));
    case 'union':
      return fc.oneof(...(def.options ?? []).map(inner));
    case 'nullable':
      return fc.oneof({ weight: 3, arbitrary: inner(def.innerType) }, fc.constant(null));
    case 'pipe':
      return inner(def.in);
    case 'optional':
    case 'default':
    case 'nonoptional':
      return inner(def.innerType);
    default:
      throw new Error(`no way to make a ${def.type} for ${field}`);
  }
}

function recordOf(shape: Readonly<Record<string, Schema>>, pool: Pool): fc.Arbitrary<unknown> {
  const fields: Record<string, fc.Arbitrary<unknown>> = {};
  const required: string[] = [];
  for (const [name, of] of Object.entries(shape)) {
    fields[name] = conforming(of, pool, name);
    if (!['optional', 'default'].includes(of._zod.def.type)) required.push(name);
  }
  return fc.record(fields, { requiredKeys: required });
}

function lists(of: fc.Arbitrary<unknown>, { least = 0, most = 3 }: Bounds): fc.Arbitrary<unknown> {
  return fc.array(of, { minLength: least, maxLength: Math.min(most, Math.max(least, 3)) });
}

function texts(schema: z.ZodType, { most = 200 }: Bounds, pool: Pool, field: string): fc.Arbitrary<string> {
  const takes = (text: string): boolean => schema.safeParse(text).success;
  if (takes('0'.repeat(64)) && !takes('a')) return fc.constantFrom('0'.repeat(64), 'f'.repeat(64));
  if (takes('0'.repeat(20)) && /Ids?$|^id$|^consent$/.test(field)) return pool.idFor(field);
  if (takes('2026-11-25') && !takes('x')) return pool.day;
  const long = Math.min(most, 100_000);
  const usual = [...pool.texts, 'x'.repeat(long), 'ä'.repeat(long)].filter(takes);
  const odd = fc.string({ unit: 'binary', maxLength: Math.min(long, 40) });
  return usual.length === 0 ? odd : fc.oneof({ weight: 12, arbitrary: fc.constantFrom(...usual) }, odd);
}

function numbers(whole: boolean, bounds: Bounds, pool: Pool, field: string): fc.Arbitrary<number> {
  const least = bounds.least ?? (whole ? Number.MIN_SAFE_INTEGER : -1e12);
  const most = bounds.most ?? (whole ? Number.MAX_SAFE_INTEGER : 1e12);
  const named = pool.numberFor(field, least, most);
  if (named && /^(iterations|runs)$/.test(field)) return named;
  const near = whole
    ? fc.integer({ min: least, max: Math.min(most, least + 5000) })
    : fc.double({ min: Math.max(least, -500), max: Math.min(most, 5000), noNaN: true });
  const ends = fc.constantFrom(least, most, Math.min(most, Math.max(least, 1)));
  return fc.oneof({ weight: 6, arbitrary: named ?? near }, ends);
}

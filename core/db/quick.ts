import type { Statement } from 'better-sqlite3';
import { Column, is, Param, Placeholder, SQL } from 'drizzle-orm';

type Values = Readonly<Record<string, unknown>>;
type Decoder = { mapFromDriverValue(value: unknown): unknown };
type Field = { readonly path: readonly string[]; readonly field: unknown };
/** What a prepared query of drizzle holds; `fields` only where rows are to be read as objects. */
type Inside = {
  readonly stmt: Statement;
  readonly query: { readonly params: readonly unknown[] };
  readonly fields?: readonly Field[];
};
type Runs = Record<'run' | 'get' | 'all', (values?: Values) => unknown>;

/**
 * The same prepared query, with the work that drizzle does for every value of every run (which class a parameter or a
 * column is of) done once: it took as long as SQLite did. Rows of several tables, an object for each, are left to drizzle.
 */
export function quick<Q>(query: Q): Q {
  const { stmt, query: built, fields } = query as Inside;
  const fill = filler(built.params);
  const runs: Partial<Runs> = { run: (values) => stmt.run(...fill(values)) };
  if (fields?.every(({ path }) => path.length === 1)) {
    stmt.raw();
    const read = reader(fields);
    runs.all = (values) => stmt.all(...fill(values)).map((row) => read(row as unknown[]));
    runs.get = (values) => {
      const row = stmt.get(...fill(values));
      return row === undefined ? undefined : read(row as unknown[]);
    };
  }
  return Object.assign(Object.create(query as object), runs) as Q;
}

/** The values of a run in the order of the statement. @throws Error when one is missing */
function filler(params: readonly unknown[]): (values?: Values) => unknown[] {
  const slots = params.map(slotOf);
  return (values = {}) => slots.map((slot) => slot(values));
}

function slotOf(param: unknown): (values: Values) => unknown {
  if (is(param, Placeholder)) return (values) => given(values, param.name);
  if (!is(param, Param) || !is(param.value, Placeholder)) return () => param;
  const { encoder } = param;
  const { name } = param.value;
  return (values) => encoder.mapToDriverValue(given(values, name));
}

function given(values: Values, name: string): unknown {
  if (!(name in values)) throw new Error(`no value for "${name}"`);
  return values[name];
}

function reader(fields: readonly Field[]): (row: readonly unknown[]) => Values {
  const names = fields.map(({ path }) => path[0] ?? '');
  const decoded = fields.flatMap(({ field }, i): readonly [number, string, Decoder][] => {
    const decoder = decoderOf(field);
    return decoder ? [[i, names[i] ?? '', decoder]] : [];
  });
  const blank = Object.fromEntries(names.map((name) => [name, null]));
  return (row) => {
    const out: Record<string, unknown> = { ...blank };
    for (let i = 0; i < names.length; i += 1) out[names[i] as string] = row[i];
    for (const [i, name, decoder] of decoded) {
      const value = row[i];
      if (value !== null) out[name] = decoder.mapFromDriverValue(value);
    }
    return out;
  };
}

/** What turns a value of the file into the one of the schema; none where they are the same. */
function decoderOf(field: unknown): Decoder | undefined {
  if (is(field, Column))
    return field.mapFromDriverValue === Column.prototype.mapFromDriverValue ? undefined : field;
  const { decoder } = (is(field, SQL) ? field : (field as { readonly sql: unknown }).sql) as {
    decoder: Decoder;
  };
  return decoder;
}

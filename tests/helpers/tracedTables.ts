import type { Database, Statement } from 'better-sqlite3';

export type Tables = { readonly read: ReadonlySet<string>; readonly written: ReadonlySet<string> };
type Values = readonly unknown[];
type Op = { readonly opcode: string; readonly p2: number };
type Root = { readonly page: number; readonly tableName: string };

/**
 * Says of a piece of work which tables its statements open, as SQLite's own program for each of them has it: OpenRead
 * and OpenWrite name the first page of a table or of an index of it, those of triggers too. Statements that were
 * prepared before are not seen.
 * @source sqlite.org, The SQLite Bytecode Engine
 */
export function tracedTables(raw: Database): (work: () => unknown) => Tables {
  const prepare = raw.prepare.bind(raw);
  const roots = rootsOf(prepare);
  const ran = new Map<string, Values>();
  const known = new Map<string, Tables>();
  raw.prepare = ((sql: string) =>
    watched(prepare(sql), (values) => void ran.set(sql, values))) as typeof raw.prepare;
  const tablesOf = ([sql, values]: readonly [string, Values]): Tables => {
    const before = known.get(sql);
    if (before) return before;
    const ops = prepare(`EXPLAIN ${sql}`).all(...values) as Op[];
    const opened = (opcode: string): ReadonlySet<string> =>
      new Set(ops.flatMap((o) => (o.opcode === opcode ? (roots.get(o.p2) ?? []) : [])));
    const tables = { read: opened('OpenRead'), written: opened('OpenWrite') };
    known.set(sql, tables);
    return tables;
  };
  return (work) => {
    ran.clear();
    work();
    const all = [...ran].map(tablesOf);
    return {
      read: new Set(all.flatMap((t) => [...t.read])),
      written: new Set(all.flatMap((t) => [...t.written])),
    };
  };
}

function rootsOf(prepare: Database['prepare']): ReadonlyMap<number, string> {
  const sql = 'SELECT rootpage AS page, tbl_name AS tableName FROM sqlite_schema WHERE rootpage > 0';
  return new Map((prepare(sql).all() as Root[]).map((r) => [r.page, r.tableName]));
}

function watched(statement: Statement, ran: (values: Values) => void): Statement {
  for (const how of ['run', 'get', 'all', 'iterate'] as const) {
    const run = statement[how].bind(statement) as (...values: Values) => never;
    statement[how] = (...values: Values) => {
      ran(values);
      return run(...values);
    };
  }
  return statement;
}

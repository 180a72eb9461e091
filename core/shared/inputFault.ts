import type { z } from 'zod';
import type { ErrorData } from './errors.ts';
import type { Problem } from './problems.ts';
import { commonTexts } from './text/en/common.ts';

/** Which field of an input does not fit, and the name of why: its words are `problem.…` in the locale files. */
export type InputFault = ErrorData['BAD_INPUT'];

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** What a whole input is called when it is no record of fields at all. */
const WHOLE = 'input';

/** The first fault found in `input`, with its field as a dotted path; an unknown field is named itself. */
export function inputFault(issues: readonly Issue[], input: unknown): InputFault {
  const [first] = issues;
  if (!first) return at([], 'unfit');
  const fault = faultOf(first, []);
  return KINDS.has(fault.problem) && isMissing(fault.field, input) ? { ...fault, problem: 'missing' } : fault;
}

function isMissing(field: string, input: unknown): boolean {
  const keys = field === WHOLE ? [] : field.split('.');
  const found = keys.reduce<unknown>(
    (v, key) => (v as Readonly<Record<string, unknown>> | undefined)?.[key],
    input,
  );
  return found === undefined;
}

/**
 * The first text that cannot be kept as it is, or null: half a surrogate pair, a control sign (SQLite ends a
 * text at NUL, XML documents take none of them) or a code point that is no letter. Tabs and line ends are kept.
 */
export function brokenText(value: unknown, path: Path = []): InputFault | null {
  if (typeof value === 'string') return BROKEN.test(value) ? at(path, 'brokenText') : null;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, part] of Object.entries(value)) {
    const found = brokenText(part, [...path, key]);
    if (found) return found;
  }
  return null;
}
const BROKEN = /[^\P{Cc}\t\n\r]|\p{Cs}|\p{Noncharacter_Code_Point}/u;

function at(path: Path, problem: Problem, limit?: number | string): InputFault {
  const field = path.length === 0 ? WHOLE : path.map(String).join('.');
  return limit === undefined ? { field, problem } : { field, problem, limit };
}

function faultOf(issue: Issue, before: Path): InputFault {
  const path = [...before, ...issue.path];
  switch (issue.code) {
    case 'invalid_type':
      return at(path, KIND_OF[issue.expected] ?? 'notRecord');
    case 'unrecognized_keys':
      return at([...path, issue.keys[0] ?? ''], 'unknownField');
    case 'too_small':
      return at(path, tooSmall(issue.origin, Number(issue.minimum)), Number(issue.minimum));
    case 'too_big':
      return at(path, tooBig(issue.origin), Number(issue.maximum));
    case 'invalid_value':
      return at(path, 'notOneOf', issue.values.map(String).join(', '));
    case 'invalid_union':
      return unionFault(issue, path);
    case 'custom':
    case 'invalid_format':
      return at(path, isProblem(issue.message) ? issue.message : 'unfit');
    default:
      return at(path, 'unfit');
  }
}

function isProblem(name: string): name is Problem {
  return Object.hasOwn(commonTexts, `problem.${name}`);
}

/** Of several forms that would do, the one that comes nearest: it has the fewest faults. */
function unionFault(issue: Extract<Issue, { code: 'invalid_union' }>, path: Path): InputFault {
  const [nearest] = [...issue.errors].sort((a, b) => a.length - b.length);
  const [first] = nearest ?? [];
  return first ? faultOf(first, path) : at(path, 'noChoice');
}

/** What was expected, as the schema library calls it, and what is said of it. */
const KIND_OF: Readonly<Record<string, Problem>> = {
  string: 'notText',
  number: 'notNumber',
  int: 'notWhole',
  boolean: 'notYesNo',
  array: 'notList',
  tuple: 'notList',
};
const KINDS = new Set<Problem>([...Object.values(KIND_OF), 'notRecord', 'notOneOf']);

function tooSmall(origin: string, least: number): Problem {
  if (origin === 'string') return least === 1 ? 'empty' : 'tooShort';
  return origin === 'array' ? 'tooFew' : 'tooSmall';
}

function tooBig(origin: string): Problem {
  if (origin === 'string') return 'tooLong';
  return origin === 'array' ? 'tooMany' : 'tooBig';
}

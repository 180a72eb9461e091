import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inputFault } from '#core/shared/inputFault.ts';
import { problem } from '#core/shared/problems.ts';

const shared = path.resolve(import.meta.dirname, '../../../core/shared');

function faultOf(schema: z.ZodType, input: unknown): unknown {
  const parsed = schema.safeParse(input);
  return parsed.success ? null : inputFault(parsed.error.issues, input);
}

/** A message written out in a schema instead of named: `.refine(…, 'text')`, `.regex(…, 'text')`, `message: 'text'`. */
function spelledOut(text: string): readonly string[] {
  const found = text.matchAll(
    /(?:message: |\.(?:refine|regex)\([^\n]*, |^ {4}(?=')(?!.*:))'([^'\n]* [^'\n]*)'/gm,
  );
  return [...found].map((m) => m[1] ?? '');
}

describe('what is said of a field that does not fit', () => {
  it('comes from the locale files by its name', () => {
    const schema = z.strictObject({ a: z.string().refine(() => false, problem('jobTwice')) });
    expect(faultOf(schema, { a: 'x' })).toEqual({ field: 'a', problem: 'jobTwice' });
  });

  it('is said in general where a schema names nothing that has words', () => {
    const schema = z.strictObject({ a: z.string().refine(() => false, 'some words of its own') });
    expect(faultOf(schema, { a: 'x' })).toEqual({ field: 'a', problem: 'unfit' });
  });

  it('is never written out in a schema', () => {
    const files = readdirSync(shared, { recursive: true, encoding: 'utf8' })
      .filter((f) => f.endsWith('.ts') && !f.startsWith('text'))
      .map((f) => readFileSync(path.join(shared, f), 'utf8'))
      .filter((text) => text.includes("from 'zod'"));
    expect(files.length).toBeGreaterThan(15);
    expect(files.flatMap(spelledOut)).toEqual([]);
  });

  it.each([
    "  .refine((d) => d.ok, 'a panel is named twice')",
    "  .refine((d) => d.ok, { message: 'is less than it', path: [] })",
    "  .regex(/^a$/, 'not an a')",
  ])('is noticed when it is: %s', (line) => {
    expect(spelledOut(line)).toHaveLength(1);
  });
});

import { z } from 'zod';
import { catalogue } from '../../core/shared/catalogue.ts';
import type { Entry } from '../../core/shared/entry.ts';

export type ListedEntry = {
  readonly name: string;
  readonly kind: string;
  readonly needs: string;
  readonly about: string;
  /** Topics that a write makes stale, or that make an answer stale. */
  readonly topics: readonly string[];
  /** JSON Schema of the input as it is sent. */
  readonly input: unknown;
};

/** Every action of the program with the shape of its input. */
export function listEntries(): readonly ListedEntry[] {
  const entries: readonly (readonly [string, Entry])[] = Object.entries(catalogue);
  return entries.map(([name, { kind, needs, about, touches, input }]) => ({
    name,
    kind,
    needs,
    about,
    topics: touches,
    input: schemaOf(input),
  }));
}

/** Bytes have no form in JSON; here they travel as base64 under `$bytes`. */
function schemaOf(input: z.ZodType): unknown {
  return z.toJSONSchema(input, {
    io: 'input',
    unrepresentable: 'any',
    override: ({ zodSchema, jsonSchema }) => {
      if (zodSchema._zod.def.type !== 'custom') return;
      jsonSchema.type = 'object';
      jsonSchema.properties = { $bytes: { type: 'string', contentEncoding: 'base64' } };
      jsonSchema.required = ['$bytes'];
    },
  });
}

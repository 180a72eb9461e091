import { z } from 'zod';
import type { Call } from '../core/shared/reply.ts';

const callShape = z.strictObject({
  name: z.string().min(1).max(100),
  input: z.unknown(),
  commandId: z.string().min(1).max(64).optional(),
  session: z.string().min(1).max(200).optional(),
});

/** A call as it came from outside, or null when it is not one. What `input` must be is the catalogue's to say. */
export function readCall(raw: unknown): Call | null {
  const read = callShape.safeParse(raw);
  if (!read.success) return null;
  const { name, input, commandId, session } = read.data;
  return {
    name,
    input,
    ...(commandId === undefined ? {} : { commandId }),
    ...(session === undefined ? {} : { session }),
  };
}

import { z } from 'zod';
import type { CustomerId, JobId, PersonId, VehicleId } from '../ids.ts';
import { problem } from '../problems.ts';
import { isLocalDay } from '../time.ts';
import type { LocalDay } from '../units.ts';

/** An id as it arrives: 20 characters of the id alphabet. */
export function idOf<T extends string>(): z.ZodType<T, string> {
  return z.string().regex(/^[0-9a-z]{20}$/, problem('noId')) as unknown as z.ZodType<T, string>;
}
export const personIdInput = idOf<PersonId>();
export const customerIdInput = idOf<CustomerId>();
export const vehicleIdInput = idOf<VehicleId>();
export const jobIdInput = idOf<JobId>();

/** Days the program reckons with. Further off somebody mistyped the year, and calendars would be laid out for centuries. */
const [FIRST_DAY, LAST_DAY] = ['1970-01-01', '2199-12-31'];

/** A real calendar day from 1970 to 2199, `YYYY-MM-DD`. */
export const localDayInput = z
  .string()
  .refine(isLocalDay, problem('noDay'))
  .refine((day) => day >= FIRST_DAY && day <= LAST_DAY, problem('dayTooFar')) as unknown as z.ZodType<
  LocalDay,
  string
>;

/** A window's own token: 32 random bytes in hex. */
export const tokenInput = z.string().regex(/^[0-9a-f]{64}$/, problem('noToken'));
export const revisionInput = z.int().min(1);

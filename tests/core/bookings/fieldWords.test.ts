import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { bookingsEntries } from '#core/shared/catalogue/bookings.ts';
import { estimateEntries } from '#core/shared/catalogue/estimate.ts';
import { paintEntries } from '#core/shared/catalogue/paint.ts';
import { isTextKey } from '#core/shared/text/say.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import { CAR_RECORD, jobWith } from '#tests/helpers/bookedJob.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

async function said(name: string, input: unknown): Promise<string> {
  const reply = await shop.call(name, input);
  return reply.ok ? 'nothing refused' : sayError('en', reply.error);
}

describe('what does not fit is called as its screen calls it', () => {
  it('at the take-in, on the panel and in the bay', async () => {
    const { jobId } = jobWith(shop, ['wash']);
    expect(await said('bookings.arrive', { jobId, ...CAR_RECORD, keyCount: 21 })).toBe(
      'Number of keys does not fit: it has to be 20 or less. Nothing was saved.',
    );
    expect(await said('bookings.arrive', { jobId, ...CAR_RECORD, agreedBy: ' ' })).toBe(
      'Agreed by does not fit: it is empty. Nothing was saved.',
    );
    expect(await said('paint.addReadings', { jobId, panel: 'bo', values: [104, 'thin'] })).toBe(
      'A reading in line 2 does not fit: it has to be a number. Nothing was saved.',
    );
    const spot = { jobId, panel: 'bo', role: 'oneStep', passes: 0, seconds: 60 };
    expect(await said('paint.recordTestSpot', spot)).toBe(
      'Number of passes does not fit: it has to be 1 or more. Nothing was saved.',
    );
  });

  /** Fields that no screen lets anybody type: ids, choices of the program itself, how a list is paged. */
  const UNTYPED =
    /Id$|Ids$|^(at|x|y|sure|revision|basis|stages|panels|mu|sigma|bayKinds|splittable|levels|measure|figure|rows|list|sort|offset|limit|alike|interior|mileageUnit|lowerMileage|picturesRecord|picturesPublish|atMs|setAside|draws|done|change|to|deposit|outcome|feeTax|way|date|shares|depth|two|rules)$/;

  it('whatever field of jobs, paint or estimates it is', () => {
    const entries = { ...bookingsEntries, ...paintEntries, ...estimateEntries };
    const wordless = new Set<string>();
    for (const entry of Object.values(entries))
      for (const field of fieldsOf(z.toJSONSchema(entry.input, { io: 'input', unrepresentable: 'any' })))
        if (!UNTYPED.test(field) && !isTextKey(`field.${field}`)) wordless.add(field);
    expect([...wordless]).toEqual([]);
  });
});

/** Every named field of a schema, however deep. */
function fieldsOf(schema: unknown): string[] {
  if (Array.isArray(schema)) return schema.flatMap(fieldsOf);
  if (typeof schema !== 'object' || schema === null) return [];
  return Object.entries(schema).flatMap(([key, part]) =>
    key === 'properties' ? [...Object.keys(part), ...fieldsOf(Object.values(part))] : fieldsOf(part),
  );
}

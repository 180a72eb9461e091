import { expect } from 'vitest';
import { pdfText } from '#tests/helpers/pdfText.ts';
import { CALLER, type Run } from '../run.ts';

/** The quote on paper with what polishing will not fix, agreed by name and way. */
export async function quoteAgreed(run: Run): Promise<void> {
  await run.page.getByRole('link', { name: 'Quote', exact: true }).click();
  await run.press('Make the quote');
  await run.page.getByRole('heading', { name: 'Agree' }).waitFor();
  await onPaper(run);
  await run.choose(/^How/, 'signed');
  await run.shot('09-quote');
  await run.press(/^Agree A/);
  await run.see(/^Option A agreed by Wilhelmine/);
  const quote = run.row('SELECT state, accepted_letter, accepted_name, accepted_way FROM quote');
  expect(Object.values(quote)).toEqual(['accepted', 'A', CALLER, 'signature']);
  const option = run.row('SELECT estimate_id, to_pay_minor, limits FROM quote_option');
  expect(option['estimate_id']).toBe(run.made.get('estimate'));
  expect(Number(option['to_pay_minor'])).toBeLessThanOrEqual(90_000);
  // Who agreed to the work wants more than the look that the job was opened for.
  expect(run.row('SELECT purpose, plan_basis FROM job')).toEqual({
    purpose: 'correction',
    plan_basis: 'agreed',
  });
  const open = run.rows("SELECT kind FROM job_stage WHERE state = 'planned'").map((r) => r['kind']);
  expect(open).toEqual(expect.arrayContaining(['wash', 'clay', 'finalCheck']));
  expect(open).not.toContain('inspection');
}

async function onPaper(run: Run): Promise<void> {
  const { name, bytes } = await run.saved(() => run.press('Save the PDF'));
  expect(name).toMatch(/\.pdf$/);
  const text = (await pdfText(bytes)).join(' ').replace(/\s+/g, ' ');
  expect(text).toContain(CALLER);
  expect(text).toContain('Lichtschliff Österby');
  // What stays is said before anybody agrees: etched pits, chips, the thin door.
  for (const limit of [/etching/i, /stone chips/i, /right front door/i]) expect(text).toMatch(limit);
}

import { expect } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import { pdfText } from '#tests/helpers/pdfText.ts';
import type { Run } from '../run.ts';
import {
  clockTo,
  documentOf,
  finishStage,
  jobNow,
  madeId,
  minutesLater,
  startStage,
  written,
} from '../work.ts';

/** A short job taken by telephone: opened, quoted, agreed and booked on the screen. Its id is kept by name. */
async function bookedByPhone(run: Run, name: string): Promise<JobId> {
  await run.open('/desk');
  await run.page.getByRole('link', { name: 'Take a call' }).click();
  await run.fill(/^who/, name);
  await run.fill('telephone', `0555 ${name.length}00 ${name.charCodeAt(0)}`);
  await run.pick('body style', 'saloon');
  await run.fill('make and model', 'Velloy Merrin');
  await run.press(/^Open the job/);
  await run.see(/^Job \d+ is kept and in hand/);
  const jobId = run.rows('SELECT id FROM job ORDER BY number DESC LIMIT 1')[0]?.['id'] as JobId;
  run.made.set(name, jobId);
  await run.open(`/jobs/${jobId}/quote`);
  await run.press('Make the quote');
  await run.press(/^Agree A/);
  await run.see(/Option A agreed/);
  return jobId;
}

/** Takes the first offer for the job in hand. */
async function bookFirstOffer(run: Run, name: string): Promise<void> {
  await run.open(`/jobs/${madeId(run, name)}`);
  await run.press('Offers');
  const offers = run.page.getByRole('region', { name: 'Offers' });
  await run.press(/books A/, offers);
  await expect.poll(async () => (await jobNow(run, name)).state).toBe('booked');
}

/** What the invoice on the screen says when it is printed. */
async function invoiceOnPaper(run: Run): Promise<string> {
  await run.page.getByRole('button', { name: 'Open as it prints' }).waitFor();
  const bytes = await documentOf(run, 'billing.invoiceFile', () => run.press('Open as it prints'));
  return (await pdfText(bytes)).join(' ');
}

/** A car that was promised does not come: the desk says so, the place is free again, the job can be booked anew. */
export async function noShow(run: Run): Promise<void> {
  const name = 'Ödön Karst';
  const jobId = await bookedByPhone(run, name);
  await bookFirstOffer(run, name);
  const { promise } = await jobNow(run, name);
  await clockTo(run, (promise.dropOffMin ?? 0) * 60_000 + 3 * 3_600_000);
  await run.signIn('Ines Örtel', '4711');
  await run.open('/desk');
  await run.see(/late, no word/);
  await run.shot('26-late');
  await run.open(`/jobs/${jobId}`);
  await run.press('Did not come');
  await run.fill('Why', 'no answer on the telephone');
  await run.press('Did not come', run.page.getByRole('alertdialog'));
  await expect.poll(async () => (await jobNow(run, name)).state).toBe('noShow');
  const { today } = await run.ask('billing.readDesk', {});
  const board = await run.ask('bays.board', { fromDay: today, toDay: today });
  expect(board.blocks.filter((b) => b.jobId === jobId)).toEqual([]);
  // Kept in the file with its reason; what was planned for it stands nowhere any more.
  expect(run.row('SELECT state, end_reason FROM job WHERE id = ?', jobId)).toEqual({
    state: 'noShow',
    end_reason: 'no answer on the telephone',
  });
  expect(run.rows('SELECT id FROM stay WHERE job_id = ?', jobId)).toEqual([]);
  await run.see('did not come');
  await run.shot('26-noShow');
}

/** A cancellation: the deposit is kept as a fee, with its own invoice. */
export async function cancelled(run: Run): Promise<void> {
  const name = 'Jorun Brix';
  const jobId = await bookedByPhone(run, name);
  await run.fill('Amount', '50');
  await run.press(/^Take €.?50[.,]00$/);
  await run.see(/50[.,]00 is held for this job/);
  await run.open(`/jobs/${jobId}`);
  await run.press('Cancel the job');
  await run.fill('Why', 'sold the car');
  await run.choose(/^The deposit of/, 'kept as a fee');
  await run.shot('27-cancel');
  await run.press('Cancel the job', run.page.getByRole('alertdialog'));
  await expect.poll(async () => (await jobNow(run, name)).state).toBe('cancelled');
  const fee = run.row(
    'SELECT id, number, to_pay_minor, prepaid_minor FROM invoice WHERE job_id = ? AND number IS NOT NULL',
    jobId,
  );
  expect(fee).toMatchObject({ to_pay_minor: 5000, prepaid_minor: 5000 });
  await run.see('cancelled');
  await run.open(`/money/${fee['id']}`);
  expect(await invoiceOnPaper(run)).toContain(written(run, 50, 2));
}

/** Stopped after the wash: what was done is billed, the rest is dropped. */
export async function stoppedHalfWay(run: Run): Promise<void> {
  const name = 'Svea Holm';
  const jobId = await bookedByPhone(run, name);
  const agreed = (await jobNow(run, name)).money.quotedMinor ?? 0;
  await bookFirstOffer(run, name);
  await clockTo(run, ((await jobNow(run, name)).promise.dropOffMin ?? 0) * 60_000);
  await run.signIn('Ines Örtel', '4711');
  await run.open(`/jobs/${jobId}/arrive`);
  await run.page.getByText('said so').click();
  await run.press('The car is here');
  await run.see(/^came/);
  await run.open(`/jobs/${jobId}/card`);
  await startStage(run, /^wash/);
  await minutesLater(run, 40);
  await finishStage(run);
  await run.page.getByRole('link', { name: 'Back to the job' }).click();
  await run.press('Stop half way');
  await run.fill('Why', 'the owner needs the car today');
  await run.press('Stop half way', run.page.getByRole('alertdialog'));
  await run.see(/stopped half way: the owner needs the car today/);
  await run.press('Invoice');
  await run.press('Issue');
  await run.page
    .getByRole('heading', { name: /^Invoice \d+/ })
    .first()
    .waitFor();
  const bill = run.row('SELECT to_pay_minor FROM invoice WHERE job_id = ?', jobId);
  expect(Number(bill['to_pay_minor'])).toBeGreaterThan(0);
  expect(Number(bill['to_pay_minor'])).toBeLessThan(agreed / 2);
  const stages = run.rows('SELECT kind, state FROM job_stage WHERE job_id = ? ORDER BY seq', jobId);
  expect(stages.filter((s) => s['state'] === 'done')).toEqual([{ kind: 'wash', state: 'done' }]);
  expect(stages.filter((s) => s['state'] === 'planned')).toEqual([]);
  expect(await invoiceOnPaper(run)).toContain(written(run, Number(bill['to_pay_minor']) / 100, 2));
  await run.shot('28-stopped');
}

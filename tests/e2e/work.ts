import { expect } from 'vitest';
import type { EntryName } from '#core/shared/catalogue.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { JobView, StageView } from '#core/shared/views/bookings.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import { bytesIn } from '#core/shared/wire.ts';
import type { Run } from './run.ts';

const HOUR_MS = 3_600_000;

/** The id that an earlier chapter kept under this name. */
export function madeId<T extends string>(run: Run, name: string): T {
  const id = run.made.get(name);
  if (!id) throw new Error(`no earlier chapter made “${name}”`);
  return id as T;
}

export function jobNow(run: Run, name = 'job'): Promise<JobView> {
  return run.ask('bookings.job', { jobId: madeId<JobId>(run, name) });
}

export async function stageNow(run: Run, kind: StageKind, name = 'job'): Promise<StageView> {
  const stage = (await jobNow(run, name)).stages.find((s) => s.kind === kind && s.state !== 'dropped');
  if (!stage) throw new Error(`the job has no ${kind}`);
  return stage;
}

/** Sets the clock to an instant. The town is an hour ahead of Greenwich on all days of the story. */
export function clockTo(run: Run, atMs: number): Promise<void> {
  return run.setClock(new Date(atMs + HOUR_MS).toISOString().slice(0, 16));
}

export async function minutesLater(run: Run, minutes: number): Promise<void> {
  await clockTo(run, (await clockNow(run)) + minutes * 60_000);
}

export function clockNow(run: Run): Promise<number> {
  return run.page.evaluate(() => Date.now());
}

/** The document that the page asks for while `act` runs. */
export async function documentOf(run: Run, entry: EntryName, act: () => Promise<void>): Promise<Uint8Array> {
  const [answer] = await Promise.all([
    run.page.waitForResponse(
      (r) => r.url().endsWith('/rpc') && (r.request().postData() ?? '').includes(`"${entry}"`),
    ),
    act(),
  ]);
  const reply = bytesIn(await answer.json(), (text) => new Uint8Array(Buffer.from(text, 'base64'))) as {
    readonly ok: boolean;
    readonly value: { readonly bytes: Uint8Array };
  };
  expect(reply.ok, entry).toBe(true);
  return reply.value.bytes;
}

/** Presses a stage on the job card, and starts it. */
export async function startStage(run: Run, kind: RegExp): Promise<void> {
  await run.page.getByRole('navigation', { name: 'Stages' }).getByRole('button', { name: kind }).click();
  await run.press('Start');
  await run.page.getByRole('button', { name: 'Hold to finish' }).waitFor();
}

/** Holds the button, as a glove does, until the amounts are asked for. */
export async function holdToFinish(run: Run): Promise<void> {
  const hold = run.page.getByRole('button', { name: 'Hold to finish' });
  await hold.hover();
  await run.page.mouse.down();
  await run.page.getByRole('region', { name: 'Used up' }).waitFor();
  await run.page.mouse.up();
}

/** Ends the stage in hand with the amounts as proposed. */
export async function finishStage(run: Run): Promise<void> {
  await holdToFinish(run);
  await run.press('Finish the stage');
  await run.page.getByRole('navigation', { name: 'Stages' }).waitFor();
}

/** Starts a stage, lets it take its minutes, and ends it with the amounts as proposed. */
export async function workStage(run: Run, kind: RegExp, minutes: number): Promise<void> {
  await startStage(run, kind);
  await minutesLater(run, minutes);
  await finishStage(run);
}

/** A number as the shop writes it: `1.234,50` in its own region. */
export function written(run: Run, value: number, digits: number): string {
  const region = String(run.row('SELECT locale FROM shop')['locale']);
  const places = { minimumFractionDigits: digits, maximumFractionDigits: digits };
  return new Intl.NumberFormat(region, places).format(value);
}

import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { careSentences } from '#core/documents/aftercare.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import { unclayed } from '#tests/helpers/bookedJob.ts';
import { CAR_RECORD, jobWith } from '../../helpers/bookedJob.ts';
import { marksOf, pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw.prepare("UPDATE shop SET locale = 'en-GB'").run();
});
afterEach(() => shop.close());

/** The car came, was read on the roof, had these stages done and went home. */
function handedOver(kinds: readonly StageKind[]): JobId {
  const { jobId, stageIds } = jobWith(shop, kinds);
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  shop.write('paint.startInspection', { jobId });
  shop.write('paint.addReadings', { jobId, panel: 'ro', values: [112, 114, 118] });
  for (const stageId of stageIds) {
    const personId = shop.people.owner;
    shop.write('bookings.startStage', { stageId, personId, setAside: unclayed('clayed at home') });
    shop.write('bookings.finishStage', { stageId, draws: [] });
  }
  const strokes: [number, number][][] = [
    [
      [0, 500],
      [1000, 400],
    ],
  ];
  const signed = { agreedWay: 'signature' as const, strokes };
  shop.write('bookings.handOver', {
    jobId,
    ...CAR_RECORD,
    ...signed,
    keyCount: 3,
    note: 'wheel lock key too',
  });
  return jobId;
}

async function sheet(jobId: JobId, kind: 'arrival' | 'handover') {
  const { records } = await shop.read('bookings.job', { jobId });
  const recordId = records.find((r) => r.kind === kind)?.id ?? '';
  const file = await shop.read('bookings.recordFile', { jobId, recordId });
  return { file, recordId, text: (await pdfText(file.bytes)).join(' ') };
}

describe('the record of a handover on paper', () => {
  it('names keys, mileage, damage, work, film that is left, who received it, and how a fresh coat is looked after', async () => {
    const jobId = handedOver(['cut', 'protect']);
    const { file, text } = await sheet(jobId, 'handover');
    expect(file.fileName).toBe('handover-1.pdf');
    for (const part of [
      ...['Handed over', 'Job 1', 'Jörg Ößterling', 'Velloy Merrin saloon', 'plate RL 12'],
      ...['48,120 km', 'Keys 3', 'child seat', 'wheel lock key too', 'front bumper: stone chips'],
      ...['Work done', 'cut, protect', 'Film that is left', 'roof 112.0 µm', 'Received by Jörg Ößterling'],
      ...['Keep the fresh coat dry', 'no shampoo', 'bird droppings', 'the sheet decides'],
    ])
      expect(text).toContain(part);
    expect((await marksOf(file.bytes)).alts).toContain('Signature');
  });

  it('speaks of no fresh coat where none was laid, and of no care where nothing was polished', async () => {
    const polished = await sheet(handedOver(['refine']), 'handover');
    expect(polished.text).toContain('wash by hand');
    expect(polished.text).not.toContain('fresh coat');
    const washed = await sheet(handedOver(['wash']), 'handover');
    expect(washed.text).not.toContain('Looking after it');
  });

  it('says of wet sanded paint that it is thinner for good, whatever else was done, and of other paint not', () => {
    const sanded = careSentences('en', [{ kind: 'sand' }]).join(' ');
    for (const said of ['clear coat off for good', 'less sun', 'bird droppings', 'the rules of your place'])
      expect(sanded).toContain(said);
    expect(sanded).not.toContain('fresh coat');
    expect(careSentences('en', [{ kind: 'sand' }, { kind: 'cut' }, { kind: 'protect' }])).toHaveLength(11);
    const polished = careSentences('en', [{ kind: 'cut' }, { kind: 'protect' }]).join(' ');
    expect(polished).toContain('the sheet decides');
    expect(polished).not.toMatch(/sanding|rules of your place/);
  });

  it('of an arrival has no work and no care, and room to sign where the form is signed', async () => {
    const { text, file } = await sheet(handedOver(['cut', 'protect']), 'arrival');
    expect(text).toContain('Taken in');
    expect(text).toContain('Agreed by Jörg Ößterling');
    expect(text).not.toContain('Work done');
    expect(text).not.toContain('Looking after it');
    expect((await marksOf(file.bytes)).alts).toContain('Signature');
  });

  it('goes with an unsent message, and is refused for a record that is not there', async () => {
    const jobId = handedOver(['cut']);
    const { recordId } = await sheet(jobId, 'handover');
    const mail = await shop.read('bookings.recordDraft', { jobId, recordId });
    expect(mail.fileName).toBe('handover-1.eml');
    expect(new TextDecoder().decode(mail.bytes)).toContain('Subject: Your Velloy Merrin, handed over');
    const none = shop.call('bookings.recordFile', { jobId, recordId: 'r0000000000000000001' });
    expect(await none).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });
});

import ICAL from 'ical.js';
import { afterEach, describe, expect, test } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

const opened: BayShop[] = [];
const open = (options = {}): BayShop => {
  const shop = openBayShop(options);
  opened.push(shop);
  return shop;
};
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});

async function book(shop: BayShop, jobId: JobId) {
  const view = await shop.read('bays.offers', { jobId });
  const [offer] = view.offers;
  if (!offer) throw new Error('no offer');
  const pieces = offer.plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
  const plan = { jobId, stays: [...offer.plan.stays], pieces };
  return { offer, change: shop.write('bays.bookOffer', { planRevision: view.planRevision, plan }) };
}

describe('the calendar file', () => {
  test('reads back as two events per job with stable ids, in the shop’s zone across a clock change', async () => {
    const shop = open({ nowMs: Date.parse('2026-10-23T07:00:00Z') });
    const jobId = shop.job('Marit Vane', USUAL);
    const { offer } = await book(shop, jobId);
    const file = await shop.read('bays.calendarFile', { jobId });
    const text = new TextDecoder().decode(file.bytes);
    const calendar = new ICAL.Component(ICAL.parse(text));
    const zone = calendar.getFirstSubcomponent('vtimezone');
    if (!zone) throw new Error('no VTIMEZONE');
    const events = calendar.getAllSubcomponents('vevent').map((e) => new ICAL.Event(e));
    expect(events.map((e) => e.uid)).toEqual([`${jobId}-dropOff@rakelight`, `${jobId}-pickUp@rakelight`]);
    const tz = new ICAL.Timezone(zone);
    const minutes = events.map((e) => {
      const time = e.startDate.clone();
      time.zone = tz;
      return time.toUnixTime() / 60;
    });
    expect(minutes).toEqual([offer.dropOffMin, offer.pickUpMin]);
    // RFC 5545, 3.8.7.2: DTSTAMP is in UTC form, which ends in Z. Booked at 07:00 UTC.
    expect(text.match(/^DTSTAMP:.*$/gm)?.map((line) => line.trim())).toEqual([
      'DTSTAMP:20261023T070000Z',
      'DTSTAMP:20261023T070000Z',
    ]);
  });

  /** Names of entries with what RFC 5545 says of changed ones: 3.8.4.7 the UID stays, 3.8.7.4 the SEQUENCE rises. */
  test('knows a drop-off again after it was moved and after it was called off: same UID, higher SEQUENCE', async () => {
    const shop = open();
    const jobId = shop.job('Marit Vane', USUAL.slice(0, 2));
    const { offer, change } = await book(shop, jobId);
    const entries = async () => {
      const { bytes } = await shop.read('bays.calendarFile', { jobId });
      const calendar = new ICAL.Component(ICAL.parse(new TextDecoder().decode(bytes)));
      return calendar.getAllSubcomponents('vevent').map((e) => ({
        uid: e.getFirstPropertyValue('uid'),
        sequence: Number(e.getFirstPropertyValue('sequence')),
        status: e.getFirstPropertyValue('status'),
        starts: String(e.getFirstPropertyValue('dtstart')),
      }));
    };
    const before = await entries();
    const cut = offer.plan.pieces[1];
    if (!cut) throw new Error('no cut');
    const startMin = (cut.startMin + 1440) as EpochMin;
    const wish = { jobId, stageIds: [cut.stageId], bayId: cut.bayId, startMin, whole: true };
    shop.write('bays.move', { ...wish, planRevision: change.planRevision, consent: true });
    const moved = await entries();
    expect(moved.map((e) => e.uid)).toEqual(before.map((e) => e.uid));
    expect(moved[0]?.starts).not.toBe(before[0]?.starts);
    moved.forEach((e, i) => {
      expect(e.sequence).toBeGreaterThan(before[i]?.sequence ?? 0);
    });
    shop.write('bookings.cancelJob', { jobId, reason: 'sold the car' });
    const gone = await entries();
    expect(gone.map((e) => [e.uid, e.status])).toEqual(before.map((e) => [e.uid, 'CANCELLED']));
    expect(gone[0]?.sequence).toBeGreaterThan(moved[0]?.sequence ?? 0);
  });

  test('ends its lines as RFC 5545, 3.1 asks, none longer than 75 octets, and reads back long names whole', async () => {
    const shop = open();
    const who =
      'Żaneta Äußerst-Œuvrard von der Überlangen Straße bei den Flüssen und Seen, Łódź; genannt Ænne';
    const jobId = shop.job(who, USUAL.slice(0, 2));
    await book(shop, jobId);
    const { bytes } = await shop.read('bays.calendarFile', { jobId });
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of text.split('\r\n'))
      expect(new TextEncoder().encode(line).length, line).toBeLessThanOrEqual(75);
    const calendar = new ICAL.Component(ICAL.parse(text));
    const [event] = calendar.getAllSubcomponents('vevent');
    expect(event?.getFirstPropertyValue('summary')).toContain(who);
  });

  test('says of a job that is not booked that it has no times yet, and of one that is not there that it is not', async () => {
    const shop = open();
    const jobId = shop.job('Marit Vane', USUAL);
    expect(await shop.call('bays.calendarFile', { jobId })).toMatchObject({
      error: { code: 'JOB_NOT_BOOKED' },
    });
    const gone = await shop.call('bays.calendarFile', { jobId: 'j'.repeat(20) });
    expect(gone).toMatchObject({ error: { code: 'NOT_FOUND' } });
  });
});

import type { BatchDoor } from '../core/host/batchDoor.ts';
import type { ItemId, PersonId, SupplierId } from '../core/shared/ids.ts';
import type { Role } from '../core/shared/roles.ts';
import { addLocalDays, minuteOf } from '../core/shared/time.ts';
import type { LocalDay, Minor } from '../core/shared/units.ts';
import type { BodyStyle, Skill } from '../core/shared/vocabulary.ts';
import { CREW, isHoliday, OPEN, ZONE } from './crew.ts';
import { DEMO_ITEMS, DEMO_SUPPLIERS, type DemoItem } from './items.ts';
import { STREETS, TOWN } from './names.ts';

export type Staff = {
  readonly id: PersonId;
  readonly name: string;
  readonly role: Role;
  readonly skills: readonly Skill[];
};
export type Shelf = { readonly item: DemoItem; readonly itemId: ItemId; readonly supplierId: SupplierId };

/** The people of the demo shop: owner, desk, four technicians. */
const PEOPLE = [
  { name: 'Runa Emberwick', role: 'owner' },
  { name: 'Sanna Quill', role: 'desk' },
  ...CREW.map(({ name }) => ({ name, role: 'technician' as const })),
] as const;

const SHOP = {
  name: `${TOWN} Paintwork`,
  address: `4 ${STREETS[1]}\n${TOWN}`,
  phone: '0555 014 100',
  email: 'desk@emberwick.example',
  taxNumber: 'ATU00000000',
  country: 'AT',
  zone: ZONE,
  currency: 'EUR',
  locale: 'en-GB',
  filmUnit: 'um',
  volumeUnit: 'ml',
  lengthUnit: 'm',
  paper: 'A4',
} as const;

/** With what the shop pays on top of the pay: the owner's, then the technicians' in the order of the crew. */
const HOUR_COSTS = [4200, 3450, 3100, 2900, 2650] as const;

/** The price of an hour went up some months before the demo's day. */
const DEARER_DAYS_AGO = 300;

/** Sets the shop up as it was two years before `day`, and says who works there. */
export function setUpShop(door: BatchDoor, firstDay: LocalDay, day: LocalDay): readonly Staff[] {
  const [owner, ...others] = PEOPLE;
  const { ownerId } = door.write('shop.setUp', {
    shop: SHOP,
    owner: { name: owner.name },
    people: others.map((p) => ({ name: p.name, role: p.role, startedDay: firstDay })),
    rates: [
      { hourMinor: 7900, fromDay: firstDay },
      { hourMinor: 8500, fromDay: addLocalDays(day, -DEARER_DAYS_AGO) },
    ],
    taxes: [
      { name: 'VAT', category: 'S', ratePpm: 200_000, fromDay: firstDay },
      {
        ...{ code: 'exempt', name: 'no VAT', category: 'E', ratePpm: 0, reason: 'exempt supply' },
        fromDay: firstDay,
      },
    ],
    demoDay: day,
  });
  door.as({ id: ownerId, name: owner.name, role: 'owner' });
  giveAccount(door);
  giveCosts(door, day);
  givePrices(door);
  const staff = door.read('access.people', {});
  return PEOPLE.map((p) => {
    const id = staff.find((row) => row.name === p.name)?.id ?? ownerId;
    const skills = CREW.find((c) => c.name === p.name)?.skills ?? [];
    return { id, name: p.name, role: p.role, skills };
  });
}

/**
 * An account that no bank has: the form of the country's numbers and check digits that are right (ISO 13616-1,
 * ISO 7064 MOD 97-10), with five noughts where the bank's number stands. That no bank is numbered so is from memory.
 */
const ACCOUNT = 'AT340000000012345678';

/** Where customers transfer to, written on every invoice. */
function giveAccount(door: BatchDoor): void {
  const { shop } = door.read('shop.page', {});
  const changes = [{ setting: 'billing.iban', value: ACCOUNT }];
  if (shop) door.write('shop.changeSettings', { revision: shop.revision, changes });
}

/** What an hour of the owner and the technicians costs the shop; it went up with the price of an hour. */
function giveCosts(door: BatchDoor, day: LocalDay): void {
  const [owner, , ...technicians] = PEOPLE;
  const staff = door.read('access.people', {});
  for (const [i, { name }] of [owner, ...technicians].entries()) {
    const person = staff.find((row) => row.name === name);
    if (!person) continue;
    const say = (fromDay: LocalDay, hourCostMinor: number) =>
      door.write('access.setHourCost', { personId: person.id, fromDay, hourCostMinor, wasMinor: null });
    const first = HOUR_COSTS[i] ?? 0;
    say(person.startedDay, first);
    if (person.startedDay < addLocalDays(day, -DEARER_DAYS_AGO))
      say(addLocalDays(day, -DEARER_DAYS_AGO), first + 150);
  }
}

/** What the shop charges beside its hours, and what it sells at one price. */
function givePrices(door: BatchDoor): void {
  door.write('shop.setCharge', { kind: 'minimum', amountMinor: 6000 });
  door.write('shop.setCharge', { kind: 'rush', sharePpm: 250_000 });
  door.write('shop.setCharge', { kind: 'afterHours', sharePpm: 150_000 });
  const bodies: BodyStyle[] = ['saloon', 'hatch', 'coupe'];
  door.write('shop.setPackage', { name: 'Wash and seal', wish: 'protect', bodies, priceMinor: 24_000 });
  door.write('shop.setPackage', { name: 'One step and seal', wish: 'oneStage', bodies, priceMinor: 69_000 });
  door.write('shop.setListPrice', { kind: 'item', name: 'Drying towel, boxed', priceMinor: 1490 });
  door.write('shop.setListPrice', { kind: 'item', name: 'Care set for coated paint', priceMinor: 4900 });
  door.write('shop.setListPrice', { kind: 'panel', level: 'oneStage', priceMinor: 9500 });
}

/** Shampoo is sold from the shop's own canister, half a litre at a time. */
function sellShampoo(door: BatchDoor, shelves: readonly Shelf[]): void {
  const itemId = shelves.find(({ item }) => item.material === 'shampoo')?.itemId;
  if (!itemId) return;
  const stock = { itemId, amount: 500_000 };
  door.write('shop.setListPrice', { kind: 'item', name: 'Shampoo, 500 ml', priceMinor: 1200, stock });
}

const BAYS = [
  { name: 'Bay 1', kind: 'wash' },
  { name: 'Bay 2', kind: 'correction' },
  { name: 'Bay 3', kind: 'correction' },
  { name: 'Bay 4', kind: 'correction' },
  { name: 'Yard', kind: 'yard', capacity: 3 },
] as const;

/** Bays, hours, who can do what and when, and a few days on which the shop is shut. */
export function furnish(door: BatchDoor, staff: readonly Staff[], firstDay: LocalDay, day: LocalDay): void {
  door.write('bays.setBays', { bays: [...BAYS] });
  const hours = OPEN.map(({ weekday, startMin, endMin }) => ({
    weekday,
    openMin: startMin,
    closeMin: endMin,
  }));
  door.write('bays.setOpeningHours', {
    hours: (['shop', 'desk'] as const).flatMap((kind) => hours.map((h) => ({ ...h, kind }))),
  });
  hire(door, staff, firstDay, day);
  for (let at = firstDay; at < addLocalDays(day, 120); at = addLocalDays(at, 1))
    if (isHoliday(at)) door.write('bays.addClosure', { fromDay: at, toDay: at, reason: 'public holiday' });
  const shut = addLocalDays(day, STOCKTAKING);
  door.write('bays.addClosure', { fromDay: shut, toDay: shut, reason: 'stocktaking' });
  const osk = staff.find((p) => p.name === CREW[3]?.name)?.id;
  if (osk) beAway(door, osk, addLocalDays(day, 8), 3, 'course');
}

function hire(door: BatchDoor, staff: readonly Staff[], firstDay: LocalDay, day: LocalDay): void {
  for (const worker of CREW) {
    const personId = staff.find((p) => p.name === worker.name)?.id;
    if (!personId) continue;
    const { skills, speedPpm, shifts, away } = worker;
    door.write('bays.setTechnician', { personId, skills: [...skills], speedPpm, shifts: [...shifts] });
    for (const [before, days] of away)
      if (addLocalDays(day, -before) > firstDay)
        beAway(door, personId, addLocalDays(day, -before), days, 'holiday');
  }
}
/** Days after the demo's day on which the shop counts its shelves. */
const STOCKTAKING = 18;

function beAway(door: BatchDoor, personId: PersonId, fromDay: LocalDay, days: number, reason: string): void {
  const startMin = minuteOf(fromDay, 0, ZONE);
  const endMin = minuteOf(addLocalDays(fromDay, days), 0, ZONE);
  door.write('bays.addAbsence', { personId, startMin, endMin, reason });
}

/** A shelf takes half as much again as lies on it on the first day. */
const SHELF = 1.5;

/** Writes down suppliers and what is on the shelves on the first day. */
export function fillShelves(door: BatchDoor): readonly Shelf[] {
  const suppliers = DEMO_SUPPLIERS.map(
    ([name, leadDays, least, openWeekdays]) =>
      door.write('stock.addSupplier', {
        ...{ name, leadDays, openWeekdays: [...openWeekdays] },
        minOrderMinor: least as Minor,
      }).supplierId,
  );
  const shelves = DEMO_ITEMS.map((item): Shelf => {
    const amount = item.pack * item.startPacks;
    const { itemId } = door.write('stock.addItem', {
      name: item.name,
      material: item.material,
      unit: item.unit,
      packSize: item.pack,
      packWord: item.word,
      place: item.place,
      reusable: item.usesPerLife !== undefined,
      usesPerLife: item.usesPerLife ?? null,
      openedLifeDays: item.openedLifeDays ?? null,
      sealedLifeDays: item.sealedLifeDays ?? null,
      shelfPacks: Math.ceil(item.startPacks * SHELF),
      hazards: item.hazards ?? '',
      preference: item.preference ?? 0,
      opening: { amount, valueMinor: (item.priceMinor * item.startPacks) as Minor },
    });
    const supplierId = suppliers[item.supplier] as SupplierId;
    door.write('stock.linkSupplier', {
      supplierId,
      itemId,
      code: '',
      packSize: item.pack,
      priceMinor: item.priceMinor as Minor,
    });
    return { item, itemId, supplierId };
  });
  sellShampoo(door, shelves);
  return shelves;
}

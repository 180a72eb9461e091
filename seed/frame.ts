import type { BatchDoor } from '../core/host/batchDoor.ts';
import type { ItemId, PersonId, SupplierId } from '../core/shared/ids.ts';
import type { Role } from '../core/shared/roles.ts';
import { addLocalDays } from '../core/shared/time.ts';
import type { LocalDay, Minor } from '../core/shared/units.ts';
import type { Skill } from '../core/shared/vocabulary.ts';
import { DEMO_ITEMS, DEMO_SUPPLIERS, type DemoItem } from './items.ts';
import { STREETS, TOWN } from './names.ts';

export const ZONE = 'Europe/Vienna';
export type Staff = { readonly id: PersonId; readonly name: string; readonly role: Role };
export type Shelf = { readonly item: DemoItem; readonly itemId: ItemId; readonly supplierId: SupplierId };

/** The people of the demo shop: owner, desk, four technicians. */
const PEOPLE = [
  { name: 'Runa Emberwick', role: 'owner' },
  { name: 'Sanna Quill', role: 'desk' },
  { name: 'Ines Carrow', role: 'technician' },
  { name: 'Tomas Brae', role: 'technician' },
  { name: 'Wren Halloway', role: 'technician' },
  { name: 'Osk Lindell', role: 'technician' },
] as const;

/** Sets the shop up as it was two years before `day`, and says who works there. */
export function setUpShop(door: BatchDoor, firstDay: LocalDay, day: LocalDay): readonly Staff[] {
  const [owner, ...others] = PEOPLE;
  const { ownerId } = door.write('shop.setUp', {
    shop: {
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
    },
    owner: { name: owner.name },
    people: others.map((p) => ({ name: p.name, role: p.role, startedDay: firstDay })),
    rates: [
      { hourMinor: 7900, fromDay: firstDay },
      { hourMinor: 8500, fromDay: addLocalDays(day, -300) },
    ],
    taxes: [
      { name: 'VAT', category: 'S', ratePpm: 200_000, fromDay: firstDay },
      {
        code: 'exempt',
        name: 'no VAT',
        category: 'E',
        ratePpm: 0,
        reason: 'exempt supply',
        fromDay: firstDay,
      },
    ],
    demoDay: day,
  });
  door.as({ id: ownerId, name: owner.name, role: 'owner' });
  const staff = door.read('access.people', {});
  return PEOPLE.map((p) => {
    const id = staff.find((row) => row.name === p.name)?.id ?? ownerId;
    return { id, name: p.name, role: p.role };
  });
}

type Week = readonly { readonly weekday: number; readonly startMin: number; readonly endMin: number }[];
const onDays = (days: readonly number[], spans: readonly (readonly [number, number])[]): Week =>
  days.flatMap((weekday) => spans.map(([startMin, endMin]) => ({ weekday, startMin, endMin })));
const FULL = [
  [480, 720],
  [750, 1020],
] as const;
const LATE = [
  [540, 750],
  [780, 1080],
] as const;

/** Skills and shifts in the order of the four technicians. */
const WORK: readonly {
  readonly skills: readonly Skill[];
  readonly shifts: Week;
  readonly speedPpm: number;
}[] = [
  {
    skills: ['correction', 'inspection', 'protection'],
    shifts: onDays([1, 2, 3, 4, 5], FULL),
    speedPpm: 1_000_000,
  },
  { skills: ['wash', 'correction', 'interior'], shifts: onDays([1, 2, 3, 4, 5], FULL), speedPpm: 960_000 },
  {
    skills: ['correction', 'protection', 'inspection'],
    shifts: onDays([1, 2, 3, 4, 5], LATE),
    speedPpm: 1_040_000,
  },
  {
    skills: ['wash', 'interior', 'protection'],
    shifts: [...onDays([2, 3, 4, 5], FULL), ...onDays([6], [[540, 780]])],
    speedPpm: 1_000_000,
  },
];

/** Bays, hours, who can do what and when, and a few days on which the shop is shut. */
export function furnish(door: BatchDoor, staff: readonly Staff[], day: LocalDay): void {
  door.write('bays.setBays', {
    bays: [
      { name: 'Bay 1', kind: 'wash' },
      { name: 'Bay 2', kind: 'correction' },
      { name: 'Bay 3', kind: 'correction' },
      { name: 'Bay 4', kind: 'protection' },
      { name: 'Yard', kind: 'yard', capacity: 3 },
    ],
  });
  const week = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, openMin: 480, closeMin: 1080 }));
  const hours = [...week, { weekday: 6, openMin: 540, closeMin: 780 }];
  door.write('bays.setOpeningHours', {
    hours: (['shop', 'desk'] as const).flatMap((kind) => hours.map((h) => ({ ...h, kind }))),
  });
  const technicians = staff.filter((p) => p.role === 'technician');
  technicians.forEach((person, i) => {
    const work = WORK[i];
    if (work)
      door.write('bays.setTechnician', {
        personId: person.id,
        skills: [...work.skills],
        speedPpm: work.speedPpm,
        shifts: [...work.shifts],
      });
  });
  door.write('bays.addClosure', {
    fromDay: addLocalDays(day, 40),
    toDay: addLocalDays(day, 41),
    reason: 'stocktaking',
  });
}

/** Writes down suppliers and what is on the shelves on the first day. */
export function fillShelves(door: BatchDoor): readonly Shelf[] {
  const suppliers = DEMO_SUPPLIERS.map(
    ([name, leadDays, least]) =>
      door.write('stock.addSupplier', { name, leadDays, minOrderMinor: least as Minor }).supplierId,
  );
  return DEMO_ITEMS.map((item): Shelf => {
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
}

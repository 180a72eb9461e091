import type { BatchDoor } from '../core/host/batchDoor.ts';
import type { ItemId, PersonId, SupplierId } from '../core/shared/ids.ts';
import type { Role } from '../core/shared/roles.ts';
import { addLocalDays } from '../core/shared/time.ts';
import type { LocalDay, Minor } from '../core/shared/units.ts';
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
      locale: 'en',
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

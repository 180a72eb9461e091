import type { BatchDoor } from '../core/host/batchDoor.ts';
import type { CustomerId, VehicleId } from '../core/shared/ids.ts';
import type { BodyStyle } from '../core/shared/vocabulary.ts';
import type { Draw } from './draw.ts';
import {
  COLOURS,
  FIRMS,
  FIRST_NAMES,
  INSURERS,
  LAST_NAMES,
  STREETS,
  TOWN,
  VEHICLES,
  VISITORS,
} from './names.ts';
import { type Paint, paintOf } from './paintwork.ts';

/** A car that comes, with who brings it and how its paint really is. */
export type Car = {
  readonly customerId: CustomerId;
  readonly customer: string;
  readonly vehicleId: VehicleId;
  readonly body: BodyStyle;
  readonly paint: Paint;
};

/** The next car; and the insurer who pays for some. */
export type Cast = (() => Car) & { readonly insurer: () => CustomerId };

const BODIES = [
  ['saloon', 26],
  ['hatch', 26],
  ['estate', 16],
  ['tall', 16],
  ['coupe', 8],
  ['van', 5],
  ['pickup', 3],
] as const satisfies readonly (readonly [BodyStyle, number])[];

type Who = { readonly id: CustomerId; readonly name: string };

/** Customers and cars as they turn up: somewhat more than a third have been here before. */
export function casting(door: BatchDoor, draw: Draw, thisYear: number): Cast {
  const known: Car[] = [];
  const firms = new Map<string, CustomerId>();
  const visitors = [...VISITORS];
  const firm = (name: string): Who => {
    const facts = { kind: 'firm', name, phone: phone(draw), email: email(name), termsDays: 14 } as const;
    const id = firms.get(name) ?? door.write('people.addCustomer', facts).id;
    firms.set(name, id);
    return { id, name };
  };
  const next = (): Car => {
    if (known.length > 20 && draw.chance(0.36)) return draw.pick(known);
    const who = draw.chance(0.08) ? firm(draw.pick(FIRMS)) : somebody(door, draw, visitors);
    const car = carOf(door, draw, who, thisYear);
    known.push(car);
    return car;
  };
  return Object.assign(next, { insurer: () => firm(draw.pick(INSURERS)).id });
}

/** The next person; the first few are the visitors, who read their papers in a language of their own. */
function somebody(door: BatchDoor, draw: Draw, visitors: (typeof VISITORS)[number][]): Who {
  const drawn = { name: `${draw.pick(FIRST_NAMES)} ${draw.pick(LAST_NAMES)}`, language: '' } as const;
  const { name, language } = visitors.shift() ?? drawn;
  const withMail = draw.chance(0.8);
  const address = `${draw.int(1, 88)} ${draw.pick(STREETS)}\n${TOWN}`;
  const facts = { name, language, phone: phone(draw), email: withMail ? email(name) : '', address };
  return { id: door.write('people.addCustomer', facts).id, name };
}

function carOf(door: BatchDoor, draw: Draw, who: Who, thisYear: number): Car {
  const body = draw.weighted(BODIES);
  const paint = paintOf(draw);
  const { id: vehicleId } = door.write('people.addVehicle', {
    customerId: who.id,
    body,
    makeModel: draw.pick(VEHICLES[body]),
    colour: draw.pick(COLOURS),
    year: thisYear - draw.int(0, 14),
    plate: plate(draw),
    hardness: paint.hardness,
  });
  return { customerId: who.id, customer: who.name, vehicleId, body, paint };
}

/** Numbers of the 0555 01x xxx kind belong to nobody in this story's town. */
function phone(draw: Draw): string {
  return `0555 01${draw.int(0, 9)} ${String(draw.int(0, 999)).padStart(3, '0')}`;
}

function email(name: string): string {
  const local = name
    .normalize('NFD')
    .replace(/[^A-Za-z ]/g, '')
    .trim()
    .toLowerCase()
    .replaceAll(' ', '.');
  return `${local}@post.example`;
}

function plate(draw: Draw): string {
  const letter = (): string => draw.pick([...'ABCDEFGHKLMNPRSTUVWXY']);
  return `EW ${draw.int(10, 99)} ${letter()}${letter()}${letter()}`;
}

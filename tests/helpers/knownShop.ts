import { normal, type Random, seeded } from '#core/shared/random.ts';
import type { TestShop } from './shop.ts';

/**
 * A shop whose truth is known, worked out here and not by the program: two technicians and two bays, Monday to Friday
 * 8:00 to 16:00 UTC, first come first served. People ask as a Poisson process in the open hours and have dates of their own
 * in mind; the work is lognormal; a third car is called in while two are worked on; what is promised is the usual time
 * and a half and an hour, cars on their own often take longer.
 */
export type KnownCar = {
  readonly askedMin: number;
  readonly cameMin: number;
  readonly begunMin: number;
  readonly readyMin: number;
  readonly goneMin: number;
  readonly promisedMin: number;
  readonly workMin: number;
};

/** Monday 5 January 2026, 00:00 UTC. */
export const KNOWN_START_MIN = Date.UTC(2026, 0, 5) / 60_000;
const [WEEK, DAY, OPENS, OPEN_DAY, OPEN_WEEK] = [10_080, 1440, 480, 480, 2400];
const SERVERS = 2;
const MOST_HERE = 3;
const ASKS_A_DAY = 2.2;
const [WORK_MEDIAN_MIN, WORK_SIGMA] = [290, 0.45];
const OWN_DATE_MIN = 2 * DAY;

/** The epoch minute of an open minute, and the first open minute at or after an epoch minute. */
function wallOf(open: number): number {
  const [week, rest] = [Math.floor(open / OPEN_WEEK), open % OPEN_WEEK];
  return KNOWN_START_MIN + week * WEEK + Math.floor(rest / OPEN_DAY) * DAY + OPENS + (rest % OPEN_DAY);
}
function openFrom(wall: number): number {
  const at = wall - KNOWN_START_MIN;
  const [week, rest] = [Math.floor(at / WEEK), at % WEEK];
  const [day, minute] = [Math.floor(rest / DAY), rest % DAY];
  if (day > 4) return (week + 1) * OPEN_WEEK;
  return week * OPEN_WEEK + day * OPEN_DAY + Math.min(OPEN_DAY, Math.max(0, minute - OPENS));
}

/** The cars that asked in so many weeks, in the order in which they came. */
export function knownCars(weeks: number, seed: number): readonly KnownCar[] {
  const random = seeded(seed);
  const asked: { readonly askedMin: number; readonly from: number }[] = [];
  for (let open = gap(random); open < weeks * OPEN_WEEK; open += gap(random)) {
    const askedMin = Math.floor(wallOf(open));
    asked.push({ askedMin, from: openFrom(askedMin - OWN_DATE_MIN * Math.log(1 - random())) });
  }
  const free = Array.from({ length: SERVERS }, () => 0);
  let latest: readonly number[] = [];
  let last = 0;
  return asked
    .toSorted((a, b) => a.from - b.from)
    .map(({ askedMin, from }) => {
      const room = latest[MOST_HERE - 1] ?? 0;
      const came = Math.ceil(Math.max(from, last, room));
      const server = free.indexOf(Math.min(...free));
      const begun = Math.max(came, free[server] ?? 0);
      const workMin = Math.max(20, Math.round(WORK_MEDIAN_MIN * Math.exp(WORK_SIGMA * normal(random))));
      free[server] = begun + workMin;
      latest = [...latest, begun + workMin].sort((a, b) => b - a).slice(0, MOST_HERE);
      last = came;
      const usual = WORK_MEDIAN_MIN * Math.exp(0.2 * normal(random));
      const fetched = openFrom(wallOf(begun + workMin) + 60 + 240 * random());
      return {
        ...{ askedMin, cameMin: wallOf(came), begunMin: wallOf(begun), workMin },
        ...{ readyMin: endOf(begun + workMin), goneMin: Math.ceil(wallOf(fetched)) },
        promisedMin: Math.round(usual * 1.5 + 60),
      };
    });
}

function gap(random: Random): number {
  return (-Math.log(1 - random()) * OPEN_DAY) / ASKS_A_DAY;
}

/** What is done at closing time is done that evening, not the next morning. */
function endOf(open: number): number {
  return wallOf(open - 1) + 1;
}

/** Opening hours, bays and people of it, by the program's own commands. */
export function setUpKnown(shop: TestShop): void {
  const week = [1, 2, 3, 4, 5];
  const [openMin, closeMin] = [OPENS, OPENS + OPEN_DAY];
  shop.write('bays.setOpeningHours', {
    hours: week.flatMap((weekday) =>
      (['shop', 'desk'] as const).map((kind) => ({ weekday, kind, openMin, closeMin })),
    ),
  });
  shop.write('bays.setBays', {
    bays: [
      { name: 'Bay 1', kind: 'correction' },
      { name: 'Bay 2', kind: 'correction' },
      { name: 'Yard', kind: 'yard', capacity: 20 },
    ],
  });
  const shifts = week.map((weekday) => ({ weekday, startMin: openMin, endMin: closeMin }));
  for (const personId of [shop.people.technician, shop.people.owner])
    shop.write('bays.setTechnician', { personId, skills: ['correction'], shifts });
  shop.db.raw.exec(`
    INSERT INTO customer (id,kind,name,phone,phone_key,email,address,country,tax_number,locale,note,created_ms) VALUES ('c','person','Dev Ostler','','','','','','','','',1);
    INSERT INTO vehicle (id,customer_id,body,make_model,colour,plate,plate_key,vin,hardness,note,created_ms) VALUES ('v','c','saloon','Harrowe Lintel','','','','','hard','',1);`);
}

/** Its record, one car after the other, as the program would have kept it. */
export function loadKnown(shop: TestShop, cars: readonly KnownCar[]): void {
  const { raw } = shop.db;
  const job = raw.prepare(
    `INSERT INTO job (id,number,customer_id,vehicle_id,purpose,state,wish,drop_off_min,pick_up_min,arrived_ms,ready_ms,collected_ms,created_ms)
     VALUES (?,?,'c','v','correction','collected','',?,?,?,?,?,?)`,
  );
  const stage = raw.prepare(
    `INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,started_ms,done_ms)
     VALUES (?,?,0,'cut','done','[]',290,200,290,420,600,5.67,0.45,0,'["correction"]','correction',1,1,'',?,?)`,
  );
  const work = raw.prepare('INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES (?,?,?,?)');
  cars.forEach((car, i) => {
    const [jobId, stageId] = [`j${i}`, `s${i}`];
    const ms = (min: number): number => Math.round(min * 60_000);
    const pickUpMin = Math.ceil(wallOf(openFrom(car.cameMin) + car.promisedMin));
    const there = [ms(car.cameMin), ms(car.readyMin), ms(car.goneMin), ms(car.askedMin)];
    job.run(jobId, i + 1, Math.round(car.cameMin), pickUpMin, ...there);
    stage.run(stageId, jobId, ms(car.begunMin), ms(car.readyMin));
    for (const [from, to] of stretchesOf(car)) work.run(stageId, shop.people.technician, ms(from), ms(to));
  });
}

/** The work of a car, cut where the shop closes. */
function stretchesOf(car: KnownCar): readonly (readonly [number, number])[] {
  const stretches: [number, number][] = [];
  const begun = openFrom(car.begunMin);
  for (let open = begun; open < begun + car.workMin; ) {
    const end = Math.min(begun + car.workMin, (Math.floor(open / OPEN_DAY) + 1) * OPEN_DAY);
    stretches.push([wallOf(open), endOf(end)]);
    open = end;
  }
  return stretches;
}

/** What the truth came to for the cars collected in `[fromMin, toMin)`, straight from the cars. */
export function truthOf(cars: readonly KnownCar[], fromMin: number, toMin: number) {
  const gone = cars.filter((c) => fromMin <= c.goneMin && c.goneMin < toMin);
  const mean = (of: (c: KnownCar) => number): number => gone.reduce((sum, c) => sum + of(c), 0) / gone.length;
  const offered = ((toMin - fromMin) / WEEK) * OPEN_WEEK * SERVERS;
  return {
    people: (mean((c) => c.workMin) * gone.length) / offered,
    wait: mean((c) => (c.cameMin - c.askedMin) / DAY),
    kept: mean((c) => (openFrom(c.readyMin) - openFrom(c.cameMin) <= c.promisedMin ? 1 : 0)),
  };
}

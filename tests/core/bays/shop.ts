import type { BayId, JobId, PersonId } from '#core/shared/ids.ts';
import type { BayKind, Skill } from '#core/shared/vocabulary.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

/** A test shop with a wash, a correction and a protection bay, a yard of two, and two technicians, Mon–Sat. */
export type BayShop = TestShop & {
  readonly bays: readonly BayId[];
  readonly ann: PersonId;
  readonly ben: PersonId;
  job(who: string, stages: readonly TestStage[]): JobId;
};
export type TestStage = {
  readonly kind: string;
  readonly min: number;
  readonly bay: BayKind;
  readonly skill: Skill;
  readonly dwell?: number;
};

export function openBayShop(options: { zone?: string; nowMs?: number } = {}): BayShop {
  const shop = openTestShop(options);
  const week = [1, 2, 3, 4, 5, 6];
  shop.write('bays.setOpeningHours', {
    hours: week.flatMap((weekday) => [
      { weekday, kind: 'shop' as const, openMin: 450, closeMin: 1080 },
      { weekday, kind: 'desk' as const, openMin: 480, closeMin: 1050 },
    ]),
  });
  const { bayIds } = shop.write('bays.setBays', {
    bays: [
      { name: 'Bay 1', kind: 'wash' },
      { name: 'Bay 2', kind: 'correction' },
      { name: 'Bay 3', kind: 'protection' },
      { name: 'Yard', kind: 'yard', capacity: 2 },
    ],
  });
  const shifts = week.flatMap((weekday) => [
    { weekday, startMin: 480, endMin: 720 },
    { weekday, startMin: 750, endMin: 1020 },
  ]);
  const [ann, ben] = [shop.people.technician, shop.people.owner];
  const skills: Skill[] = ['wash', 'correction', 'protection', 'interior', 'inspection'];
  shop.write('bays.setTechnician', { personId: ann, skills, shifts });
  shop.write('bays.setTechnician', { personId: ben, skills: ['wash', 'correction'], shifts });
  let count = 0;
  const job = (who: string, stages: readonly TestStage[]): JobId => {
    count += 1;
    return addJob(shop, who, stages, count);
  };
  return { ...shop, bays: bayIds, ann, ben, job };
}

function pad(text: string): JobId {
  return text.padEnd(20, '0') as JobId;
}

function addJob(shop: TestShop, who: string, stages: readonly TestStage[], n: number): JobId {
  const run = (sql: string, ...values: (string | number)[]): void => {
    shop.db.raw.prepare(sql).run(...values);
  };
  const [c, v, j] = [pad(`c${n}z`), pad(`v${n}z`), pad(`j${n}z`)];
  run(
    `INSERT INTO customer (id, kind, name, phone, phone_key, email, address, country, tax_number, locale, note, created_ms)
     VALUES (?, 'person', ?, '', '', '', '', '', '', '', '', 0)`,
    c,
    who,
  );
  run(
    `INSERT INTO vehicle (id, customer_id, body, make_model, colour, plate, plate_key, vin, hardness, note, created_ms)
     VALUES (?, ?, 'saloon', 'Velloy Merrin', 'blue', '', '', '', 'medium', '', 0)`,
    v,
    c,
  );
  run(
    `INSERT INTO job (id, number, customer_id, vehicle_id, purpose, state, wish, created_ms)
     VALUES (?, ?, ?, ?, 'correction', 'quoted', '', 0)`,
    j,
    1000 + n,
    c,
    v,
  );
  stages.forEach((s, i) => {
    run(
      `INSERT INTO job_stage (id, job_id, seq, kind, state, panels, estimated_min, p20_min, p50_min, p80_min, p95_min,
         mu, sigma, dwell_min, bay_kinds, skill, crew, splittable, note)
       VALUES (?, ?, ?, ?, 'planned', '[]', ?, ?, ?, ?, ?, ?, 0.2, ?, ?, ?, 1, 1, '')`,
      pad(`s${n}x${i}z`),
      j,
      i,
      s.kind,
      ...[s.min, s.min, s.min, s.min, s.min],
      Math.log(s.min),
      s.dwell ?? 0,
      JSON.stringify([s.bay]),
      s.skill,
    );
  });
  return j;
}

/** A wash of one hour, a cut of five and a protection of one with a night of cure: the usual car. */
export const USUAL: readonly TestStage[] = [
  { kind: 'wash', min: 60, bay: 'wash', skill: 'wash' },
  { kind: 'cut', min: 300, bay: 'correction', skill: 'correction' },
  { kind: 'protect', min: 60, bay: 'protection', skill: 'protection', dwell: 720 },
];

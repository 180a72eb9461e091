import { keepDays } from '#core/figures/commands/keepDays.ts';
import { addLocalDays } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { honestyView } from '#core/views/figures.ts';
import { utilizationView } from '#core/views/utilization.ts';
import type { TestShop } from '../../helpers/shop.ts';

/** Minutes and ms of a time in November 2026, as in `16T08:00`. */
export const min = (at: string): number => Date.parse(`2026-11-${at}Z`) / 60_000;
export const ms = (at: string): number => Date.parse(`2026-11-${at}Z`);

const stage = (id: string, job: string, seq: number, times: readonly (string | null)[], crew = 1): string =>
  `INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,started_ms,done_ms)
    VALUES ('${id}','${job}',${seq},'${crew ? 'cut' : 'cure'}','${times[1] ? 'done' : 'inWork'}','[]',100,90,100,150,180,4.6,0.2,${crew ? 120 : 0},'[]','correction',${crew},1,'',${times.map((t) => (t ? ms(t) : 'NULL')).join(',')});`;
const job = (id: string, number: number, came: string, went: string | null): string =>
  `INSERT INTO job (id,number,customer_id,vehicle_id,purpose,state,wish,arrived_ms,ready_ms,collected_ms,created_ms)
    VALUES ('${id}',${number},'c','v','correction','${went ? 'collected' : 'inWork'}','',${ms(came)},${went ? ms(went) : 'NULL'},${went ? ms(went) : 'NULL'},1);`;
export const stay = (of: string, bay: string, from: string, to: string): string =>
  `INSERT INTO stay (job_id,bay_id,arrive_min,leave_min) VALUES ('${of}','${bay}',${min(from)},${min(to)});`;
export const placed = (of: string, id: string, bay: string): string =>
  `INSERT INTO placement (job_id,stage_id,bay_id,start_min,end_min,dwell_end_min) VALUES ('${of}','${id}','${bay}',1,2,2);`;
export const car = (id: string, hardness: string): string =>
  `INSERT INTO vehicle (id,customer_id,body,make_model,colour,plate,plate_key,vin,hardness,note,created_ms) VALUES ('${id}','c','saloon','','','','','','${hardness}','',1);`;
export const work = (id: string, who: string, from: string, to: string | null): string =>
  `INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES ('${id}','${who}',${ms(from)},${to ? ms(to) : 'NULL'});`;
export const found = (id: string, severity: string): string =>
  `INSERT INTO finding VALUES ('${id}','i','bonnet','swirls','${severity}',0,10,'',NULL,1,NULL);`;

/**
 * A shop since 20 October, over the end of summer time, with two bays and a technician, every change of which shows: a job that went with two places,
 * work noted before it came and a stage after it went; one without a place; one that is there, worked on and drying.
 */
export function keptShop({ db, people }: TestShop): void {
  const who = people.technician;
  const weekdays = (sql: (day: number) => string): string => [1, 2, 3, 4, 5].map(sql).join('');
  db.raw.exec(`INSERT INTO journal (at_ms,command,subjects,fields) VALUES (${Date.parse('2026-10-20T08:00Z')},'a','[]','[]');
    ${weekdays((day) => `INSERT INTO opening_hours VALUES (${day},'shop',480,1080);`)}
    INSERT INTO technician (person_id,skills,speed_ppm) VALUES ('${who}','["correction"]',1000000);
    ${weekdays((day) => `INSERT INTO shift VALUES ('${who}',${day},540,1020);INSERT INTO shift VALUES ('${people.desk}',${day},540,600);`)}
    INSERT INTO bay (id,name,kind,capacity,seq,started_day) VALUES ('b1','Bay 1','correction',1,1,'2026-01-01'),('b2','Bay 2','correction',1,2,'2026-01-01'),('b3','Bay 3','correction',1,3,'2026-01-01');
    INSERT INTO customer (id,kind,name,phone,phone_key,email,address,country,tax_number,locale,note,created_ms) VALUES ('c','person','Dev Ostler','','','','','','','','',1);
    ${car('v', 'hard')}${car('w', 'soft')}
    INSERT INTO closure VALUES ('k','2026-11-05','2026-11-05',NULL,'');
    INSERT INTO absence VALUES ('a','${who}',${min('06T09:00')},${min('06T12:00')},'');
    ${job('A', 1, '16T08:00', '18T15:00')}${stay('A', 'b1', '16T08:00', '17T12:00')}${stay('A', 'b2', '17T12:00', '18T12:00')}
    ${stage('s1', 'A', 0, ['16T09:00', '16T12:00'])}${placed('A', 's1', 'b1')}${work('s1', who, '16T09:00', '16T12:00')}
    ${stage('s2', 'A', 1, ['12T09:00', '17T11:00'])}${placed('A', 's2', 'b1')}${work('s2', who, '17T09:00', '17T11:00')}
    ${work('s2', who, '12T09:00', '12T10:00')}UPDATE job_stage SET started_ms = ${ms('17T09:00')} WHERE id = 's2';
    ${stage('s3', 'A', 2, ['18T09:00', '23T12:00'])}${work('s3', who, '18T09:00', '18T09:30')}
    ${stage('s4', 'A', 3, ['17T13:00', '17T15:00'], 0)}
    INSERT INTO inspection VALUES ('i','A','v',NULL,1,1);${found('f', 'moderate')}
    ${job('C', 2, '10T08:00', '11T15:00')}
    ${job('B', 3, '19T08:00', null)}${stay('B', 'b1', '19T08:00', '27T12:00')}
    ${stage('t1', 'B', 0, ['19T09:00', null])}${placed('B', 't1', 'b1')}${work('t1', who, '19T09:00', '19T10:00')}${work('t1', who, '24T09:00', null)}
    ${stage('t2', 'B', 1, ['20T09:00', null], 0)}${placed('B', 't2', 'b1')}`);
}

/** Every question that kept days answer, over all of them and a week before and after. */
export function told({ db, now }: TestShop): unknown {
  const ctx = { db, now: now(), actor: null };
  const range = { fromDay: '2026-10-13' as LocalDay, toDay: addLocalDays('2026-11-25' as LocalDay, 7) };
  return {
    hours: (['day', 'week', 'month'] as const).map((by) => utilizationView(ctx, { ...range, by })),
    honesty: honestyView(ctx, range),
  };
}

/** The same from the records alone. */
export function worked(shop: TestShop): unknown {
  return aside(shop, () => {
    shop.db.raw.exec('DELETE FROM kept_day');
    return told(shop);
  });
}

/** Does something that leaves no trace. */
export function aside<T>({ db: { raw } }: TestShop, work: () => T): T {
  const name = `aside${raw.inTransaction}`;
  raw.exec(`SAVEPOINT ${name}`);
  try {
    return work();
  } finally {
    raw.exec(`ROLLBACK TO ${name}; RELEASE ${name}`);
  }
}

export function keepAll({ db, now }: TestShop): void {
  while (keepDays(db, now()));
}

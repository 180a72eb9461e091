import type { TestShop } from '../../helpers/shop.ts';

const min = (iso: string): number => Date.parse(iso) / 60_000;
const ms = (iso: string): number => Date.parse(iso);

/**
 * One bay open 08:00–18:00 local on Wednesdays, a technician from 09:00 to 12:30; one car there on 25 November 2026,
 * 08:00–15:00Z (local time is UTC+1), cut from 09:00 to 12:00Z and dried for an hour.
 */
export function lookBackDay(shop: TestShop): void {
  const { raw } = shop.db;
  const who = shop.people.technician;
  const [bay, job] = ['b'.repeat(20), 'j'.repeat(20)];
  raw.exec(`
    INSERT INTO opening_hours VALUES (3, 'shop', 480, 1080);
    INSERT INTO technician (person_id, skills, speed_ppm) VALUES ('${who}', '["correction"]', 1000000);
    INSERT INTO shift VALUES ('${who}', 3, 540, 750);
    INSERT INTO bay (id, name, kind, capacity, seq, started_day) VALUES ('${bay}', 'Bay 2', 'correction', 1, 1, '2016-01-01');
    INSERT INTO customer (id,kind,name,phone,phone_key,email,address,country,tax_number,locale,note,created_ms) VALUES ('c','person','Dev Ostler','','','','','','','','',1);
    INSERT INTO vehicle (id,customer_id,body,make_model,colour,plate,plate_key,vin,hardness,note,created_ms) VALUES ('v','c','saloon','Harrowe Lintel','','','','','hard','',1);
    INSERT INTO job (id,number,customer_id,vehicle_id,purpose,state,wish,drop_off_min,pick_up_min,arrived_ms,ready_ms,collected_ms,created_ms)
      VALUES ('${job}',7,'c','v','correction','collected','',${min('2026-11-25T08:00Z')},${min('2026-11-25T16:00Z')},${ms('2026-11-25T08:00Z')},${ms('2026-11-25T14:00Z')},${ms('2026-11-25T15:00Z')},1);
    INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,started_ms,done_ms)
      VALUES ('s','${job}',0,'cut','done','[]',100,90,100,150,180,4.6,0.2,60,'["correction"]','correction',1,1,'',${ms('2026-11-25T09:00Z')},${ms('2026-11-25T12:00Z')});
    INSERT INTO stay (job_id,bay_id,arrive_min,leave_min) VALUES ('${job}','${bay}',${min('2026-11-25T08:00Z')},${min('2026-11-25T16:00Z')});
    INSERT INTO placement (job_id,stage_id,bay_id,person_id,start_min,end_min,dwell_end_min)
      VALUES ('${job}','s','${bay}','${who}',${min('2026-11-25T09:00Z')},${min('2026-11-25T11:00Z')},${min('2026-11-25T12:00Z')});
    INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES ('s','${who}',${ms('2026-11-25T09:00Z')},${ms('2026-11-25T12:00Z')});
  `);
}

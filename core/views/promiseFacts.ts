/** What a job's dates are worth now, as SQL over `job j`. */

const PROMISED = `j.state IN ('booked','here','inWork')`;
/** Dates of a job that was cancelled, missed, sent home or stopped half way bind nobody any more. */
const HOLDS = `(j.state IN ('booked','here','inWork','ready','collected') AND j.stopped_ms IS NULL)`;
/** Only a look at the paint has its place: the pick-up agreed is that of the visit. */
const FOR_VISIT = `(${PROMISED} AND j.pick_up_min IS NOT NULL
  AND EXISTS (SELECT 1 FROM placement p WHERE p.job_id = j.id)
  AND NOT EXISTS (SELECT 1 FROM placement p JOIN job_stage s ON s.id = p.stage_id
    WHERE p.job_id = j.id AND s.kind <> 'inspection'))`;

/** When the board has the job's last work end, as SQL over `job j`; null while it has no place. */
export const LIKELY_MIN = `(SELECT max(p.dwell_end_min) FROM placement p JOIN job_stage s ON s.id = p.stage_id
    WHERE p.job_id = j.id AND s.state <> 'dropped')`;

/** Columns of `PromiseFacts`. A chance and its being below the shop's level are kept until the car is ready. */
export const PROMISE = `iif(${HOLDS}, j.drop_off_min, NULL) AS dropOffMin,
    iif(${HOLDS}, j.pick_up_min, NULL) AS pickUpMin,
    iif(${PROMISED}, j.promise_ppm, NULL) AS promisedPpm,
    iif(${PROMISED}, j.bold, 0) AS bold, ${FOR_VISIT} AS forVisit`;

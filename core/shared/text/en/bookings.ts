/** Jobs, arrival, work, handover. */
export const bookingsTexts = {
  'error.JOB_STATE':
    'Job {number} is “{jobState}”, so it can’t be {action, select, change {changed} plan {planned again} quote {quoted} book {booked} arrive {taken in} sendHome {sent home} work {worked on} ready {made ready} handOver {handed over} noShow {marked as not come} cancel {cancelled: work has begun, so stop it half way instead} stopHalfWay {stopped half way} redo {redone} other {changed that way}}. Nothing was changed.',
  'error.STAGE_STATE':
    'This stage ({stage}) is “{stageState}”, so it can’t be {action, select, start {started} pause {paused} finish {finished} drop {dropped} panel {ticked panel by panel} other {changed}}. Nothing was changed.',
  'error.STAGE_ORDER':
    '{rule, select, decontaminateBeforeMachine {Not decontaminated yet} clayBeforeMachine {Not clayed yet} other {Not cut yet}}: {panels}. {rule, select, cutBeforeRefine {Refining comes after the cut that is planned there.} other {Grit that is still on the paint would be dragged round by the pad.}} Do that first, or set the rule aside under your name with the reason.',
  'error.PROMISE_BEFORE_DROP_OFF': 'The pick-up has to be after the drop-off. Nothing was booked.',
  'error.WORK_OVERLAPS':
    '{person} was at work on {stage} of job {number} in that time already. One person can’t be typed in twice: change one of the two.',
  'error.WORK_REVERSED': 'The end has to be after the start. Nothing was changed.',
  'error.WORK_AHEAD': 'That time has not come yet. Work can only be typed in afterwards.',
  'error.WORK_RUNS': '{person} is still at it. Pause or finish first, then correct the time.',
  'error.PERSON_NOT_HERE': '{name} does not work here any more. Choose somebody who does.',
  'error.PANEL_NOT_IN_STAGE': '{panel} is not part of this stage ({stage}).',
  'error.SIGNATURE_MISSING': 'There is no signature in the field yet. Let them sign, or choose another way.',
  'error.PUBLISH_NEEDS_RECORD':
    'Pictures that may be shown to others have to be allowed for the record too. Ask again, then tick both or neither.',
  'error.STAGES_OPEN':
    '{count, plural, one {One stage is} other {# stages are}} not done yet. Finish or drop them first, or stop the job half way.',
  'error.NO_STAGES': 'Job {number} has no stages yet. Make an estimate first.',
} as const;

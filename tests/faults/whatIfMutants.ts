import type { Mutant } from './mutant.ts';

const RULES = 'tests/core/figures/whatIfRules.test.ts';
const QUEUE = 'tests/core/figures/whatIfQueue.test.ts';
const CURE_TIME = 'tests/core/figures/cureTime.test.ts';
const HELD_BACK = 'tests/core/figures/heldBack.test.ts';
const WHOLE = 'tests/core/figures/whatIf.test.ts';

/** Faults in the what-if: in the run of the shop, in who asks, and in how before and after are held beside each other. */
export const WHAT_IF_MUTANTS: readonly Mutant[] = [
  {
    what: 'the what-if works on two cars in one bay at once',
    file: 'core/figures/rules/whatIfRun.ts',
    find: '  world.taken[place] = true;',
    put: '',
    tests: [QUEUE],
  },
  {
    what: 'the what-if takes in cars beyond the room there is',
    file: 'core/figures/rules/whatIfRun.ts',
    find: 'here.length >= shop.places.length || ',
    put: '',
    tests: [RULES],
  },
  {
    what: 'the what-if lets one person be at two cars',
    file: 'core/figures/rules/whatIfHands.ts',
    find: 'for (const i of who) busy[i] = true;',
    put: 'for (const i of who) busy[i] = false;',
    tests: [QUEUE],
  },
  {
    what: 'the what-if counts the cars by time only up to the one before',
    file: 'core/figures/rules/whatIfWorld.ts',
    find: 'sums.carMin += here.length * (until - sums.countedMin);',
    put: 'sums.carMin += Math.max(0, here.length - 1) * (until - sums.countedMin);',
    tests: [QUEUE],
  },
  {
    what: 'the what-if begins what is not to be cut in two before a break',
    file: 'core/figures/rules/whatIfHands.ts',
    find: ' || !fits(i, stage, now, leftMin)',
    put: '',
    tests: [RULES],
  },
  {
    what: 'the what-if draws other cars for the shop after the change',
    file: 'core/figures/rules/whatIf.ts',
    find: 'after.push(oneRun(model, model.after, habits, seed));',
    put: 'after.push(oneRun(model, model.after, habits, seed + 1));',
    tests: [WHOLE],
  },
  {
    what: 'the what-if draws a tenth more cars than came',
    file: 'core/figures/rules/whatIfAsks.ts',
    find: '+ 1 / weeks;',
    put: '+ 1.1 / weeks;',
    tests: [RULES],
  },
  {
    what: 'a what-if that is stopped runs on',
    file: 'core/figures/rules/whatIf.ts',
    find: 'round < model.rounds && !watch.cancelled()',
    put: 'round < model.rounds',
    tests: [WHOLE],
  },
  {
    what: 'a coat cures for as long as nobody ends it',
    file: 'core/views/bayRecord.ts',
    find: '`min(coalesce(g.done_ms, :nowMs), g.started_ms + (g.p50_min + g.dwell_min) * 60000)`',
    put: '`coalesce(g.done_ms, :nowMs)`',
    tests: [CURE_TIME],
  },
  {
    what: 'a car that was fetched goes on curing in its bay',
    file: 'core/views/bayRecord.ts',
    find: 'g.done_ms / 60000 + g.dwell_min END, t.went_min)',
    put: 'g.done_ms / 60000 + g.dwell_min END, 1e12)',
    tests: [CURE_TIME],
  },
  {
    what: 'the what-if takes half as many again to ask as did',
    file: 'core/figures/rules/whatIfAsks.ts',
    find: '+ 1 / weeks;',
    put: '+ 1.5 / weeks;',
    tests: [HELD_BACK],
  },
];

import type { PlanScore } from './views/planScore.ts';

/**
 * Which of two plans is better: less is, in this order: plans that do not hold, plans that time has passed, customers to be
 * asked, weighed minutes late, confirmed bookings touched, sum of finishes.
 */
export function better(a: PlanScore, b: PlanScore): boolean {
  if (a.broken !== b.broken) return a.broken < b.broken;
  if (a.behind !== b.behind) return a.behind < b.behind;
  if (a.asked !== b.asked) return a.asked < b.asked;
  if (a.weighedMin !== b.weighedMin) return a.weighedMin < b.weighedMin;
  if (a.touched !== b.touched) return a.touched < b.touched;
  return a.sumReadyMin < b.sumReadyMin;
}

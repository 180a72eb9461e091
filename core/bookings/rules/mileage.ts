/** What a car's clock says: whole kilometres or miles, cut off, never rounded up. */
export type ClockReading = { readonly mileage: number; readonly mileageUnit: 'km' | 'mi' };

/** The international mile is 1609.344 m exactly (yard of 0.9144 m, International Yard and Pound Agreement, 1959). */
const METRES = { km: 1000, mi: 1609.344 } as const;

/**
 * Whether a later reading says less than an earlier one. In two units only where no driven metre could make both true:
 * a clock that says 100 stands anywhere up to 101.
 */
export function ranBack(before: ClockReading, now: ClockReading): boolean {
  return (now.mileage + 1) * METRES[now.mileageUnit] <= before.mileage * METRES[before.mileageUnit];
}

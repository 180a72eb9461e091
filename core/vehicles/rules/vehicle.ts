import { cleanLine, cleanLines } from '../../people/rules/names.ts';
import { refuse } from '../../shared/errors.ts';
import { type Said, saidOnly } from '../../shared/said.ts';
import type { BodyStyle, PaintHardness } from '../../shared/vocabulary.ts';
import { plateKey } from './plate.ts';

/** What may be said of a vehicle; anything left out stays as it is. */
export type VehicleFields = {
  readonly body?: BodyStyle | undefined;
  readonly makeModel?: string | undefined;
  readonly colour?: string | undefined;
  readonly year?: number | null | undefined;
  readonly plate?: string | undefined;
  readonly vin?: string | undefined;
  readonly lengthMm?: number | null | undefined;
  readonly widthMm?: number | null | undefined;
  readonly heightMm?: number | null | undefined;
  readonly hardness?: PaintHardness | undefined;
  readonly note?: string | undefined;
};

/** The year of the first motor car. @source German patent 37435 of 1886 */
const FIRST_YEAR = 1886;

/** A vehicle as it is kept: texts cleaned, fields that were not said left out. @throws YEAR_UNLIKELY */
export function cleanVehicle(
  said: VehicleFields,
  thisYear: number,
): Said<VehicleFields & { readonly plateKey: string | undefined }> {
  checkYear(said.year ?? null, thisYear + 1);
  const { makeModel, colour, plate, vin, note } = said;
  return saidOnly({
    ...said,
    makeModel: makeModel === undefined ? undefined : cleanLine(makeModel),
    colour: colour === undefined ? undefined : cleanLine(colour),
    plate: plate === undefined ? undefined : cleanLine(plate),
    plateKey: plate === undefined ? undefined : plateKey(plate),
    vin: vin === undefined ? undefined : cleanLine(vin),
    note: note === undefined ? undefined : cleanLines(note),
  });
}

function checkYear(year: number | null, latest: number): void {
  if (year !== null && (year < FIRST_YEAR || year > latest)) refuse('YEAR_UNLIKELY', { year, latest });
}

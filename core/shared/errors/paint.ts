import type { PictureConsent } from '../views/paint.ts';

/** Refusals of the paint and estimate areas: code → data. Every code has its sentence in core/shared/text. */
export type PaintErrors = {
  /** A pad wider than the section it would work on. */
  readonly PAD_OVERHANGS: { readonly padMm: number; readonly sectionMm: number };
  readonly PANEL_NOT_ON_BODY: { readonly panel: string; readonly body: string };
  /** `row` here and below = where it stands in a gauge's text, 0 = typed. */
  readonly FILM_ABSURD: { readonly value: number; readonly unit: 'um' | 'mil'; readonly row: number };
  /** Values that fit the other unit far better: asked about, saved once somebody says they are right. */
  readonly FILM_UNIT_DOUBTFUL: {
    readonly value: number;
    readonly unit: 'um' | 'mil';
    readonly other: 'um' | 'mil';
    readonly row: number;
  };
  /** A reading far from the panel's others, or above all before work: asked about, saved once it is said to be right. */
  readonly FILM_FAR_OFF: {
    readonly panel: string;
    readonly body: string;
    readonly row: number;
    readonly value: number;
    readonly against: number;
    readonly unit: 'um' | 'mil';
    readonly why: 'far' | 'above';
  };
  /** `panels` = the panels of this body, called as they are on it. */
  readonly READING_PANEL: {
    readonly row: number;
    readonly text: string;
    readonly panels: readonly string[];
    readonly body: string;
  };
  readonly READING_UNREADABLE: { readonly row: number; readonly column: string; readonly text: string };
  readonly READING_COLUMNS: { readonly missing: string };
  /** More cells than the heading has columns, or than a row without one may have. */
  readonly READING_CELLS: { readonly row: number; readonly cells: number; readonly columns: number };
  /** Not written in UTF-8. */
  readonly READING_ENCODING: { readonly row: number; readonly column: string; readonly text: string };
  readonly NO_READING: Readonly<Record<string, never>>;
  /** A rate is fitted through two test spots at least. */
  readonly SPOTS_TOO_FEW: { readonly spots: number };
  /** The rate that the test spots would make lies beyond every paint. */
  readonly SPOTS_ABSURD: { readonly spots: number };
  readonly SUBSTRATE_UNREADABLE: {
    readonly panel: string;
    readonly body: string;
    readonly substrate: string;
    readonly row: number;
  };
  readonly DEPTH_REVERSED: Readonly<Record<string, never>>;
  /** A depth range for what lies on the paint or is missing from it. */
  readonly DEPTH_NOT_OF_DEFECT: { readonly defect: string };
  /** Deeper than most paint is thick, likely the other unit: asked about, saved once it is said to be right. */
  readonly DEPTH_DOUBTFUL: { readonly highTenthUm: number };
  /** A level that the film does not allow without a named person's override. */
  readonly FILM_TOO_THIN: { readonly panel: string; readonly level: string };
  readonly FILM_BELOW_FLOOR: { readonly panel: string; readonly level: string };
  /** Wet sanding without the owner's own consent, or deeper than was agreed to. */
  readonly SANDING_NOT_AGREED: { readonly panel: string; readonly level: string };
  readonly SANDING_FILM_UNKNOWN: { readonly panel: string; readonly level: string };
  /** Polishing reaches all that was found on the panel. */
  readonly NOTHING_TO_SAND: { readonly panel: string; readonly level: string };
  readonly NO_INSPECTION: Readonly<Record<string, never>>;
  readonly NO_ESTIMATE: Readonly<Record<string, never>>;
  readonly TEST_SPOT_UNCLAYED: { readonly panel: string; readonly body: string };
  readonly NOTHING_FITS: Readonly<Record<string, never>>;
  readonly PICTURE_TOO_LARGE: { readonly mostMb: number };
  /** The newest record of the car does not allow it; `agreed` is what it allows. */
  readonly PICTURE_NOT_AGREED: { readonly agreed: Exclude<PictureConsent, 'publish'> };
  readonly PICTURE_UNREADABLE: Readonly<Record<string, never>>;
};

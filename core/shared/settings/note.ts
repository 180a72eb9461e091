/** How a setting is shown and typed: its storage unit decides the display unit and the digits. */
export const SETTING_UNITS = [
  'filmTenthUm',
  'mm',
  'mmPerSecond',
  'seconds',
  'minutes',
  'days',
  'ul',
  'ppm',
  'count',
  'minor',
  'choice',
  'text',
  'yesNo',
  'list',
] as const;
export type SettingUnit = (typeof SETTING_UNITS)[number];

/**
 * Where a default comes from: `practice` = common practice, no source; `memory` = from memory, nobody could look
 * it up; `standard` = the standard named beside it; `example` = an example, the shop's own adviser decides;
 * `choice` = a plain choice of the owner.
 */
export type SettingSource = 'practice' | 'memory' | 'standard' | 'example' | 'choice';

/** What Shop shows beside a setting. The name is the locale text `setting.<group>.<key>`. */
export type SettingNote = {
  readonly unit: SettingUnit;
  readonly source: SettingSource;
  /** The standard and clause, where the source is one. */
  readonly of?: string;
};

export function note(unit: SettingUnit, source: SettingSource, of?: string): SettingNote {
  return of === undefined ? { unit, source } : { unit, source, of };
}

import { refuse } from '../../shared/errors.ts';
import { type ShopSettings, settingNotes, shopSettings } from '../../shared/settings.ts';

export type SettingChange = {
  readonly setting: string;
  readonly value: number | string | boolean | readonly number[];
};

/**
 * The rules after some changes by name (`paint.thinTenthUm`), all or none.
 * @throws SETTING_UNKNOWN for a name that is none; SETTING_OUT_OF_RANGE for a value outside its limits
 */
export function withChanges(now: ShopSettings, changes: readonly SettingChange[]): ShopSettings {
  const next: Record<string, Record<string, unknown>> = { ...now };
  for (const { setting, value } of changes) {
    const [group = '', key = ''] = setting.split('.');
    if (!isSetting(group, key)) refuse('SETTING_UNKNOWN', { setting });
    next[group] = { ...next[group], [key]: value };
  }
  const checked = shopSettings.safeParse(next);
  if (checked.success) return checked.data;
  const first = checked.error.issues[0];
  const setting = first?.path.slice(0, 2).join('.') ?? '';
  const wrong = first?.code === 'too_big' ? 'high' : first?.code === 'too_small' ? 'low' : 'other';
  return refuse('SETTING_OUT_OF_RANGE', { setting, wrong });
}

function isSetting(group: string, key: string): boolean {
  const notes: Readonly<Record<string, Readonly<Record<string, unknown>>>> = settingNotes;
  return Object.hasOwn(notes, group) && Object.hasOwn(notes[group] ?? {}, key);
}

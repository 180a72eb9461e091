import { type ReactNode, useState } from 'react';
import type { SettingNote } from '#core/shared/settings/note.ts';
import { type SettingGroup, settingNotes } from '#core/shared/settings.ts';
import type { TextKey } from '#core/shared/text/en.ts';
import { isTextKey } from '#core/shared/text/say.ts';
import type { Shop } from '#core/shared/views/shop.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useText } from '../../bridge/texts.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Refusal } from '../../ui/States.tsx';
import { RuleField, type RuleValue } from './RuleField.tsx';
import css from './shop.module.css';

const GROUPS = Object.keys(settingNotes) as SettingGroup[];

/** The name of a rule: its own text, or its bare name where there is none yet. */
function nameOf(setting: string, t: Say): string {
  const key = `setting.${setting}`;
  return isTextKey(key) ? t(key) : setting;
}

/** Where a default comes from. Of examples that is said once, above the rules. */
function sourceOf(note: SettingNote, t: Say): string | undefined {
  if (note.source === 'example') return undefined;
  return note.source === 'standard' ? (note.of ?? '') : t(`shop.source.${note.source}` satisfies TextKey);
}

/** Every rule the owner may change, with its unit and where its default comes from. Saved one by one. */
export function RulesPart(props: { readonly shop: Shop }): ReactNode {
  const t = useText();
  const [group, setGroup] = useState<SettingGroup>('paint');
  const change = useCommand('shop.changeSettings');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const notes: Readonly<Record<string, SettingNote>> = settingNotes[group];
  const values = props.shop.settings[group] as Readonly<Record<string, RuleValue>>;
  return (
    <div className={css['form']}>
      <Words
        label={t('shop.part.rules')}
        options={GROUPS.map((value) => ({ value, label: t(`shop.group.${value}`) }))}
        value={group}
        onChange={setGroup}
      />
      {Object.values(notes).some((note) => note.source === 'example') ? (
        <p className="t1 quiet">{t('shop.examples')}</p>
      ) : null}
      <Refusal refusal={change.refusal} />
      {Object.entries(notes).map(([key, note]) => {
        const setting = `${group}.${key}`;
        return (
          <RuleField
            key={setting}
            setting={setting}
            label={nameOf(setting, t)}
            note={note}
            source={sourceOf(note, t)}
            value={values[key] ?? null}
            off={off}
            onChange={(value) =>
              void change.run({ revision: props.shop.revision, changes: [{ setting, value }] })
            }
          />
        );
      })}
    </div>
  );
}

import { type ReactNode, useEffect, useEffectEvent, useState } from 'react';
import type { SentFor } from '#core/shared/catalogue.ts';
import type { PlainError } from '#core/shared/errors.ts';
import type { SettingNote } from '#core/shared/settings/note.ts';
import { type SettingGroup, settingNotes } from '#core/shared/settings.ts';
import type { TextKey } from '#core/shared/text/en.ts';
import type { Shop } from '#core/shared/views/shop.ts';
import { useCommand } from '../../bridge/commands.ts';
import { type Edited, useEdited } from '../../bridge/edited.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { Refusal } from '../../ui/States.tsx';
import { RuleField } from './RuleField.tsx';
import { type RuleValue, ruleName, ruleText } from './ruleWords.ts';
import css from './shop.module.css';

const GROUPS = Object.keys(settingNotes) as SettingGroup[];

/** Where a default comes from. Of examples that is said once, above the rules. */
function sourceOf(note: SettingNote, t: Say): string | undefined {
  if (note.source === 'example') return undefined;
  return note.source === 'standard' ? (note.of ?? '') : t(`shop.source.${note.source}` satisfies TextKey);
}

type Values = Readonly<Record<string, RuleValue>>;

/** The values of all groups by the full names of their rules. */
function valuesOf(shop: Shop): Values {
  return Object.fromEntries(
    GROUPS.flatMap((group) =>
      Object.entries(shop.settings[group]).map(([key, value]) => [`${group}.${key}`, value as RuleValue]),
    ),
  );
}

/** Every rule the owner may change, with its unit and where its default comes from. Saved as they are changed. */
export function RulesPart(props: { readonly shop: Shop }): ReactNode {
  const t = useText();
  const [group, setGroup] = useState<SettingGroup>('paint');
  const rules = useRules(props.shop);
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const notes: Readonly<Record<string, SettingNote>> = settingNotes[group];
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
      {group === 'billing' ? <p className="t1 quiet">{t('shop.paperCaution')}</p> : null}
      <Unsaved rules={rules} />
      {Object.entries(notes).map(([key, note]) => {
        const setting = `${group}.${key}`;
        return (
          <RuleField
            key={setting}
            setting={setting}
            label={ruleName(setting, t)}
            note={note}
            source={sourceOf(note, t)}
            value={rules.edited.draft[setting] ?? null}
            off={off}
            onChange={(value) => rules.change(setting, value)}
          />
        );
      })}
    </div>
  );
}

type Rules = {
  readonly stored: Values;
  readonly edited: Edited<Values>;
  readonly refusal: PlainError | null;
  readonly change: (setting: string, value: RuleValue) => void;
  readonly saveAgain: () => void;
};

/** The rules as stored, with what was typed over them and is not saved: refused, or changed elsewhere meanwhile. */
function useRules(shop: Shop): Rules {
  const stored = valuesOf(shop);
  const edited = useEdited<Values>(stored, shop.revision);
  const { clashes } = edited;
  const command = useCommand('shop.changeSettings');
  // One save at a time, each over what the last one left: a rule set and set back at once is saved as set back.
  const [due, setDue] = useState(false);
  const ready = due && !command.busy && !edited.awaited && clashes.length === 0;
  async function save(): Promise<void> {
    setDue(false);
    const typed = Object.entries(edited.draft).filter(([name, value]) => !Object.is(value, stored[name]));
    const changes = typed.map(([setting, value]) => ({ setting, value }));
    if (changes.length === 0) return command.clear();
    const done = await command.run({ revision: edited.revision, changes } as SentFor<'shop.changeSettings'>);
    if (done.ok) edited.saved(Object.fromEntries(typed));
  }
  const saveNow = useEffectEvent(save);
  useEffect(() => {
    if (ready) void saveNow();
  }, [ready]);
  function change(setting: string, value: RuleValue): void {
    edited.put({ [setting]: value });
    setDue(true);
  }
  function keepMine(): void {
    edited.keepMine();
    setDue(true);
  }
  function takeTheirs(): void {
    edited.takeTheirs();
    setDue(true);
  }
  const saveAgain = (): void => setDue(true);
  return { stored, edited: { ...edited, keepMine, takeTheirs }, refusal: command.refusal, change, saveAgain };
}

/** What another window changed, and why what was typed here is not saved yet. */
function Unsaved(props: { readonly rules: Rules }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { edited, stored, refusal, saveAgain } = props.rules;
  return (
    <>
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(setting) => ruleName(setting, t)}
        value={(setting) => ruleText(setting, noteOf(setting), stored[setting] ?? null, t, manner)}
      />
      <Refusal refusal={refusal}>
        <LinkButton
          why={edited.clashes.length > 0 ? t('ui.elsewhere.choose') : undefined}
          onPress={saveAgain}
        >
          {t('shop.save')}
        </LinkButton>
      </Refusal>
    </>
  );
}

function noteOf(setting: string): SettingNote {
  const [group = '', key = ''] = setting.split('.');
  return (settingNotes as Readonly<Record<string, Readonly<Record<string, SettingNote>>>>)[group]?.[
    key
  ] as SettingNote;
}

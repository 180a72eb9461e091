import type { ReactNode } from 'react';
import type { WeeklyHours } from '#core/shared/examples.ts';
import { SKILLS, type Skill } from '#core/shared/vocabulary.ts';
import { useText } from '../../bridge/texts.tsx';
import { Check, Segmented } from '../../ui/Choice.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import type { Work } from './draft.ts';
import css from './shop.module.css';
import { WeekTable } from './WeekTable.tsx';
import type { Unread } from './week.ts';

const PPM_PER_CENT = 10_000;

/** What somebody can do at cars, at what pace, and when. */
export function WorkFields(props: {
  readonly name: string;
  readonly work: Work;
  /** When the shop is open: what own hours start from. */
  readonly open: readonly WeeklyHours[];
  readonly onChange: (work: Work) => void;
  readonly off?: string | undefined;
  readonly unread?: Unread;
  readonly onUnread?: (unread: Unread) => void;
}): ReactNode {
  const t = useText();
  const { work, off } = props;
  const change = (part: Partial<Work>): void => props.onChange({ ...work, ...part });
  return (
    <div className={css['work']}>
      <SkillBoxes
        name={props.name}
        off={off}
        skills={work.skills}
        onChange={(skills) => change({ skills })}
      />
      <div className={css['pace']}>
        <NumberField
          label={t('shop.work.pace')}
          unit="%"
          min={20}
          max={300}
          saves
          value={work.speedPpm / PPM_PER_CENT}
          onChange={(pace) => change({ speedPpm: (pace ?? 100) * PPM_PER_CENT })}
          off={off}
        />
        <Segmented
          label={t('shop.work.shifts')}
          value={work.shifts === null ? 'open' : 'own'}
          options={[
            { value: 'open', label: t('shop.work.asOpen'), why: off },
            { value: 'own', label: t('shop.work.own'), why: off },
          ]}
          onChange={(when) => change({ shifts: when === 'open' ? null : props.open })}
        />
      </div>
      {work.shifts === null ? null : (
        <WeekTable
          off={off}
          lines={[{ id: props.name, label: t('shop.work.ownWeek', { name: props.name }), week: work.shifts }]}
          {...(props.unread && props.onUnread ? { unread: props.unread, onUnread: props.onUnread } : {})}
          onChange={([shifts = []]) => change({ shifts })}
        />
      )}
    </div>
  );
}

function SkillBoxes(props: {
  readonly name: string;
  readonly skills: readonly Skill[];
  readonly onChange: (skills: readonly Skill[]) => void;
  readonly off: string | undefined;
}): ReactNode {
  const t = useText();
  const { skills, off } = props;
  return (
    <fieldset className={css['skills']}>
      <legend className="unseen">{props.name}</legend>
      {SKILLS.map((skill) => (
        <Check
          key={skill}
          label={t(`word.skill.${skill}`)}
          value={skills.includes(skill)}
          why={off}
          onChange={(on) => props.onChange(SKILLS.filter((s) => (s === skill ? on : skills.includes(s))))}
        />
      ))}
    </fieldset>
  );
}

import { type ReactNode, useState } from 'react';
import { hours, money } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { exact } from '#core/shared/text/when.ts';
import type { EpochMs, Minor } from '#core/shared/units.ts';
import { type JobView, LATE_WEIGHTS, type LateWeight } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useEdited } from '../../bridge/edited.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { DateTimeField } from '../../ui/DateFields.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { HoursField, MoneyField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';

type Wishes = Pick<JobView, 'wish' | 'ceilingMinor' | 'ceilingMin' | 'wantedByMin' | 'lateWeight'>;

/** What was asked for: their words, how much it may cost or last, when it is wanted back; the desk may change it. */
export function Wished(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const desk = useMay('desk');
  const [changing, setChanging] = useState(false);
  const { job } = props;
  if (changing) return <WishForm job={job} onDone={() => setChanging(false)} />;
  const parts = KEYS.map((key) => said(t, manner, job)[key]).filter((text) => text !== '');
  return (
    <p className="quiet">
      {parts.length > 0 ? parts.join(', ') : t('jobs.wish.none')}{' '}
      {desk && job.allows.includes('change') ? (
        <LinkButton quiet onPress={() => setChanging(true)}>
          {t('jobs.wish.change')}
        </LinkButton>
      ) : null}
    </p>
  );
}

const KEYS = [
  'wish',
  'ceilingMinor',
  'ceilingMin',
  'wantedByMin',
  'lateWeight',
] as const satisfies (keyof Wishes)[];

function said(t: Say, manner: Manner, of: Wishes): Readonly<Record<keyof Wishes, string>> {
  return {
    wish: of.wish ? `“${of.wish}”` : '',
    ceilingMinor:
      of.ceilingMinor === null ? '' : t('jobs.wish.upTo', { most: money(manner, of.ceilingMinor) }),
    ceilingMin:
      of.ceilingMin === null ? '' : t('jobs.wish.upTo', { most: amountText(hours(manner, of.ceilingMin)) }),
    wantedByMin:
      of.wantedByMin === null ? '' : t('jobs.wish.backBy', { when: exact(manner, of.wantedByMin * 60_000) }),
    lateWeight: of.lateWeight === 1 ? '' : t('jobs.wish.late', { weight: of.lateWeight }),
  };
}

function WishForm(props: { readonly job: JobView; readonly onDone: () => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job } = props;
  const { wish, ceilingMinor, ceilingMin, wantedByMin, lateWeight } = job;
  const stored: Wishes = { wish, ceilingMinor, ceilingMin, wantedByMin, lateWeight };
  const edited = useEdited<Wishes>(stored, job.revision);
  const change = useCommand('bookings.changeJob');
  async function save(): Promise<void> {
    const done = await change.run({ jobId: job.id, revision: job.revision, ...edited.draft });
    if (done.ok) props.onDone();
  }
  return (
    <Stack gap={1}>
      <WishFields draft={edited.draft} put={edited.put} />
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(key) => t(LABELS[key])}
        value={(key) => said(t, manner, stored)[key]}
      />
      <Refusal refusal={change.refusal} />
      <Row>
        <Button
          kind="go"
          busy={change.busy}
          why={edited.clashes.length > 0 ? t('ui.elsewhere.choose') : undefined}
          onPress={() => void save()}
        >
          {t('jobs.wish.save')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('jobs.back')}</LinkButton>
      </Row>
    </Stack>
  );
}

const LABELS = {
  wish: 'takeIn.words',
  ceilingMinor: 'takeIn.ceilingMoney',
  ceilingMin: 'takeIn.ceilingHours',
  wantedByMin: 'takeIn.backBy',
  lateWeight: 'jobs.wish.lateWeight',
} as const satisfies Readonly<Record<keyof Wishes, string>>;

/** One ceiling at most: of money or of hours, whichever was written last. */
function WishFields(props: {
  readonly draft: Wishes;
  readonly put: (part: Partial<Wishes>) => void;
}): ReactNode {
  const t = useText();
  const { draft, put } = props;
  return (
    <>
      <TextField
        label={t('takeIn.words')}
        value={draft.wish}
        maxLength={2000}
        onChange={(wish) => put({ wish })}
      />
      <Row>
        <MoneyField
          label={t('takeIn.ceilingMoney')}
          min={0}
          value={draft.ceilingMinor}
          onChange={(minor) =>
            put({ ceilingMinor: minor as Minor | null, ...(minor === null ? {} : { ceilingMin: null }) })
          }
        />
        <HoursField
          label={t('takeIn.ceilingHours')}
          min={0}
          value={draft.ceilingMin}
          onChange={(ceilingMin) =>
            put({ ceilingMin, ...(ceilingMin === null ? {} : { ceilingMinor: null }) })
          }
        />
      </Row>
      <DateTimeField
        label={t('takeIn.backBy')}
        value={draft.wantedByMin === null ? null : ((draft.wantedByMin * 60_000) as EpochMs)}
        onChange={(ms) => put({ wantedByMin: minuteOrNone(ms) })}
      />
      <LateWeightField value={draft.lateWeight} onChange={(lateWeight) => put({ lateWeight })} />
    </>
  );
}

/** How much it weighs when a re-plan makes this car late. */
function LateWeightField(props: {
  readonly value: LateWeight;
  readonly onChange: (value: LateWeight) => void;
}): ReactNode {
  const t = useText();
  const options = LATE_WEIGHTS.map((weight) => ({
    value: `${weight}` as const,
    label: t(`jobs.wish.lateWeight.${weight}`),
  }));
  const of = (value: `${LateWeight}`): LateWeight => LATE_WEIGHTS.find((w) => `${w}` === value) ?? 1;
  return (
    <>
      <Segmented
        label={t('jobs.wish.lateWeight')}
        options={options}
        value={`${props.value}`}
        onChange={(value) => props.onChange(of(value))}
      />
      <p className="quiet">{t('jobs.wish.lateNote')}</p>
    </>
  );
}

function minuteOrNone(ms: EpochMs | null): Wishes['wantedByMin'] {
  return ms === null ? null : (Math.floor(ms / 60_000) as Wishes['wantedByMin']);
}

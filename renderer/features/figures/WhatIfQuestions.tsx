import type { ReactNode } from 'react';
import { count, money } from '#core/shared/text/format.ts';
import { MOST_COST_WEEK_MINOR } from '#core/shared/whatIfChange.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { HoursField, MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { WhatIfPeople } from './WhatIfPeople.tsx';
import css from './whatIf.module.css';
import type { QuestionProps } from './whatIf.ts';

const MOST_MORE = 5;

/** A few questions, each left alone unless something is entered; any of them together. */
export function WhatIfQuestions(
  props: QuestionProps & {
    readonly busy: boolean;
    readonly onRun: () => void;
    readonly onClear: () => void;
  },
): ReactNode {
  const t = useText();
  const { form, onChange } = props;
  const late = form.like !== 'none' && form.hours === 'late';
  return (
    <div className={css['questions']}>
      <Bay {...props} />
      <WhatIfPeople {...props} />
      <HoursField
        label={t('whatIf.longer')}
        value={form.longerMin}
        min={0}
        max={360}
        note={t(late ? 'whatIf.longer.lateNote' : 'whatIf.longer.note')}
        onChange={(v) => onChange({ ...form, longerMin: v ?? 0 })}
      />
      <Trade {...props} />
      <Cost {...props} />
      <Row>
        <Button
          kind="go"
          busy={props.busy}
          why={late && form.longerMin === 0 ? t('whatIf.lateNeeds') : undefined}
          onPress={props.onRun}
        >
          {t('whatIf.run')}
        </Button>
        <LinkButton onPress={props.onClear}>{t('whatIf.clear')}</LinkButton>
      </Row>
    </div>
  );
}

/** What the change costs a week; of another technician at the same hours it is known what one like them costs. */
function Cost({ start, form, onChange }: QuestionProps): ReactNode {
  const t = useText();
  const manner = useManner();
  const like = form.hours === 'same' ? start.people.find((p) => p.personId === form.like) : undefined;
  const usual = like?.weekMinor ? like.weekMinor * form.people : null;
  const said = usual === null ? '' : money(manner, usual);
  return (
    <>
      <MoneyField
        label={t('whatIf.cost')}
        value={form.costWeekMinor}
        min={0}
        max={MOST_COST_WEEK_MINOR}
        note={usual === null ? t('whatIf.cost.note') : t('whatIf.cost.like', { name: like?.name ?? '' })}
        onChange={(v) => onChange({ ...form, costWeekMinor: v ?? 0 })}
      />
      {usual === null || usual === form.costWeekMinor ? null : (
        <Row>
          <LinkButton quiet onPress={() => onChange({ ...form, costWeekMinor: usual })}>
            {t('whatIf.cost.take', { money: said })}
          </LinkButton>
        </Row>
      )}
    </>
  );
}

function Bay({ start, form, onChange }: QuestionProps): ReactNode {
  const t = useText();
  const none = form.bayKind === 'none';
  return (
    <div className={css['pair']} data-one={none}>
      <Select
        label={t('whatIf.bay')}
        value={form.bayKind}
        onChange={(bayKind) => onChange({ ...form, bayKind })}
        options={[
          { value: 'none', label: t('whatIf.bay.none') },
          ...start.bays.map((b) => ({
            value: b.kind,
            label: t(`word.bay.${b.kind}`),
            note: t('whatIf.has', { count: b.count }),
          })),
        ]}
      />
      {none ? null : (
        <NumberField
          label={t('whatIf.how')}
          value={form.bays}
          min={1}
          max={MOST_MORE}
          onChange={(v) => onChange({ ...form, bays: v ?? 1 })}
        />
      )}
    </div>
  );
}

/** Price, how many ask, and for what. */
function Trade({ start, form, onChange }: QuestionProps): ReactNode {
  const t = useText();
  const manner = useManner();
  const none = form.purpose === 'none';
  const percent = (ppm: number): string => count(manner, ppm / 10_000);
  return (
    <>
      <div className={css['pair']} data-even="true">
        <NumberField
          label={t('whatIf.price')}
          value={form.pricePct}
          min={-50}
          max={100}
          unit="%"
          onChange={(v) => onChange({ ...form, pricePct: v ?? 0 })}
        />
        <NumberField
          label={t('whatIf.asks')}
          value={form.asksPct}
          min={-90}
          max={200}
          unit="%"
          onChange={(v) => onChange({ ...form, asksPct: v ?? 0 })}
        />
      </div>
      <div className={css['pair']} data-one={none}>
        <Select
          label={t('whatIf.mix')}
          value={form.purpose}
          onChange={(purpose) => {
            const share = start.purposes.find((p) => p.purpose === purpose)?.sharePpm ?? 0;
            onChange({ ...form, purpose, sharePct: Math.round(share / 10_000) });
          }}
          options={[
            { value: 'none', label: t('whatIf.mix.none') },
            // Of one kind alone there is no other share.
            ...(start.purposes.length > 1 ? start.purposes : []).map((p) => ({
              value: p.purpose,
              label: t(`jobs.purpose.${p.purpose}`),
              note: t('whatIf.shareNow', { percent: percent(p.sharePpm) }),
            })),
          ]}
        />
        {none ? null : (
          <NumberField
            label={t('whatIf.share')}
            value={form.sharePct}
            min={0}
            max={100}
            unit="%"
            onChange={(v) => onChange({ ...form, sharePct: v ?? 0 })}
          />
        )}
      </div>
    </>
  );
}

import { type ReactNode, useState } from 'react';
import { hours, lasting } from '#core/shared/text/format.ts';
import type { BaysSetupView, StageGapView } from '#core/shared/views/baysSetup.ts';
import { STAGE_KINDS, type StageKind } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { AddForm, ListAndForm } from './ListAndForm.tsx';

/** How long the next stage waits after one, and how soon it has to follow. */
export function StageGaps(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const drop = useCommand('bays.dropGap');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const said = useSaid();
  return (
    <ListAndForm
      title={t('shop.apart.gaps')}
      none={t('shop.apart.noGaps')}
      rows={props.setup.gaps.map((gap) => ({
        key: gap.stage,
        what: t(`word.stage.${gap.stage}`),
        about: said(gap),
        onTakeBack: () => void drop.run({ stage: gap.stage }),
      }))}
      off={off}
      refusal={drop.refusal}
    >
      <NewGap off={off} />
    </ListAndForm>
  );
}

/** `at least 30 min after it, within 2 h of it` */
function useSaid(): (gap: StageGapView) => string {
  const t = useText();
  const manner = useManner();
  const time = (minutes: number): string => {
    const { value, unit } = minutes < 120 ? lasting(manner, minutes) : hours(manner, minutes);
    return `${value} ${unit}`;
  };
  return ({ leastMin, mostMin }) =>
    [
      leastMin > 0 ? t('shop.apart.least', { time: time(leastMin) }) : '',
      mostMin === null ? '' : t('shop.apart.most', { mostMin, time: time(mostMin) }),
    ]
      .filter(Boolean)
      .join(', ');
}

function NewGap(props: { readonly off: string | undefined }): ReactNode {
  const t = useText();
  const { off } = props;
  const set = useCommand('bays.setGap');
  const [stage, setStage] = useState<StageKind>('panelWipe');
  const [leastMin, setLeast] = useState<number | null>(null);
  const [mostMin, setMost] = useState<number | null>(null);
  const least = leastMin ?? 0;
  const empty = least === 0 && mostMin === null ? t('shop.apart.needsTime') : undefined;
  const reversed = mostMin !== null && mostMin < least ? t('shop.apart.reversed') : undefined;
  async function put(): Promise<void> {
    const done = await set.run({ stage, leastMin: least, mostMin });
    if (!done.ok) return;
    setLeast(null);
    setMost(null);
  }
  const minutes = { unit: 'min', min: 0, max: 20_160, off };
  return (
    <AddForm
      add={t('shop.apart.set')}
      why={off ?? empty ?? reversed}
      busy={set.busy}
      refusal={set.refusal}
      onAdd={() => void put()}
    >
      <Select<StageKind>
        label={t('shop.apart.stage')}
        options={STAGE_KINDS.map((value) => ({ value, label: t(`word.stage.${value}`) }))}
        value={stage}
        onChange={setStage}
        off={off}
      />
      <NumberField {...minutes} label={t('shop.apart.leastMin')} value={leastMin} onChange={setLeast} />
      <NumberField
        {...minutes}
        label={t('shop.apart.mostMin')}
        placeholder={t('shop.apart.any')}
        value={mostMin}
        onChange={setMost}
      />
    </AddForm>
  );
}

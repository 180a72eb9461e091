import { type ReactNode, useState } from 'react';
import { hours, lasting } from '#core/shared/text/format.ts';
import type { BaysSetupView, StageGapView } from '#core/shared/views/baysSetup.ts';
import { STAGE_KINDS, type StageKind } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

/** How long the next stage waits after one, and how soon it has to follow. */
export function StageGaps(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const drop = useCommand('bays.dropGap');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const said = useSaid();
  const { gaps } = props.setup;
  return (
    <>
      <Head level={3} title={t('shop.apart.gaps')} />
      {gaps.length === 0 ? <p className="t1 quiet">{t('shop.apart.noGaps')}</p> : null}
      <List label={t('shop.apart.gaps')}>
        {gaps.map((gap) => (
          <Item key={gap.stage}>
            <span className={css['awayRow']}>
              <span>{t(`word.stage.${gap.stage}`)}</span>
              <span className="quiet cut">{said(gap)}</span>
              <LinkButton quiet why={off} onPress={() => void drop.run({ stage: gap.stage })}>
                {t('shop.away.takeBack')}
              </LinkButton>
            </span>
          </Item>
        ))}
      </List>
      <Refusal refusal={drop.refusal} />
      <NewGap off={off} />
    </>
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
    <>
      <div className={css['apartForm']}>
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
        <Button why={off ?? empty ?? reversed} busy={set.busy} onPress={() => void put()}>
          {t('shop.apart.set')}
        </Button>
      </div>
      <Refusal refusal={set.refusal} />
    </>
  );
}

import { type ReactNode, useState } from 'react';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { Absences } from './Absences.tsx';
import { Closures } from './Closures.tsx';
import { DustPairs } from './DustPairs.tsx';
import { HoursPart } from './HoursPart.tsx';
import { PlacesPart } from './PlacesPart.tsx';
import { StageGaps } from './StageGaps.tsx';
import css from './shop.module.css';
import { WorkPart } from './WorkPart.tsx';

const SIDES = ['places', 'hours', 'work', 'apart', 'away'] as const;
type Side = (typeof SIDES)[number];

/** Bays and yard, opening hours, who works when, and when nobody does. */
export function BaysPart(): ReactNode {
  const t = useText();
  const [side, setSide] = useState<Side>('places');
  const setup = useQuery('bays.setup', {}, { keep: true });
  return (
    <div className={css['wide']}>
      <Words
        label={t('shop.part.bays')}
        options={SIDES.map((value) => ({ value, label: t(`shop.side.${value}`) }))}
        value={side}
        onChange={setSide}
      />
      <Refusal refusal={setup.error} />
      {setup.data ? <SideOf side={side} setup={setup.data} /> : <Waiting />}
    </div>
  );
}

function SideOf(props: { readonly side: Side; readonly setup: BaysSetupView }): ReactNode {
  const { setup } = props;
  switch (props.side) {
    case 'places':
      return <PlacesPart setup={setup} />;
    case 'hours':
      return <HoursPart setup={setup} />;
    case 'work':
      return <WorkPart setup={setup} />;
    case 'apart':
      return (
        <>
          <StageGaps setup={setup} />
          <DustPairs setup={setup} />
        </>
      );
    case 'away':
      return (
        <>
          <Closures setup={setup} />
          <Absences setup={setup} />
        </>
      );
  }
}

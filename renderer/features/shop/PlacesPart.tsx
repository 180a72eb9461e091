import { type ReactNode, useEffect, useRef, useState } from 'react';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BaysSetupView } from '#core/shared/views/bays.ts';
import { BAY_KINDS, type BayKind } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Item, List } from '../../ui/List.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { NewBay } from './NewBay.tsx';
import css from './shop.module.css';
import { useTyped } from './useTyped.ts';

type Bay = BaysSetupView['bays'][number];

/** Bays and yard: names and set-up saved as they are typed; one more; the last day of one. */
export function PlacesPart(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const ended = props.setup.bays.flatMap((bay) => (bay.endedDay ? [{ ...bay, lastDay: bay.endedDay }] : []));
  return (
    <>
      {props.setup.bays
        .filter((bay) => bay.endedDay === null)
        .map((bay) => (
          <OneBay key={bay.bayId} bay={bay} />
        ))}
      <NewBay />
      {ended.length === 0 ? null : (
        <List label={t('shop.bay.gone')}>
          {ended.map((bay) => (
            <Item key={bay.bayId}>
              <span className="cut">{bay.name}</span>
              <span className="t1 quiet">{t('shop.until', { day: date(manner, bay.lastDay) })}</span>
            </Item>
          ))}
        </List>
      )}
      <p className="t1 dusty">
        {t('shop.bay.one')} {t('shop.bay.setupNote')}
      </p>
    </>
  );
}

function OneBay(props: { readonly bay: Bay }): ReactNode {
  const t = useText();
  const { bayId, revision, kind } = props.bay;
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [ending, setEnding] = useState(false);
  const change = useCommand('bays.changeBay');
  const [name, setName] = useTyped(props.bay.name, change.busy);
  const put = (part: { name?: string; kind?: BayKind; capacity?: number; setupMin?: number }): void =>
    void change.run({ bayId, revision, ...part });
  // Enter and leaving the field both say that it is done; the answer to the first is not here yet at the second.
  const sent = useRef(props.bay.name);
  useEffect(() => {
    sent.current = props.bay.name;
  }, [props.bay.name]);
  function rename(typed: string): void {
    if (typed.trim() === '' || typed === sent.current) return;
    sent.current = typed;
    put({ name: typed });
  }
  return (
    <div className={css['oneBay']}>
      <div className={css['bayRow']}>
        <TextField
          label={t('shop.bay.name')}
          value={name}
          maxLength={60}
          off={off}
          onChange={setName}
          onDone={rename}
        />
        <Select
          label={t('shop.bay.kind')}
          options={BAY_KINDS.map((value) => ({ value, label: t(`word.bay.${value}`) }))}
          value={kind}
          off={off}
          onChange={(next) => put({ kind: next })}
        />
        {kind === 'yard' ? (
          <NumberField
            label={t('shop.bay.cars')}
            min={1}
            max={50}
            value={props.bay.capacity}
            off={off}
            onChange={(capacity) => put({ capacity: capacity ?? 1 })}
          />
        ) : (
          <span />
        )}
        <NumberField
          label={t('shop.bay.setup')}
          unit="min"
          min={0}
          max={240}
          value={props.bay.setupMin}
          off={off}
          onChange={(setupMin) => put({ setupMin: setupMin ?? 0 })}
        />
        <LinkButton
          quiet
          why={off}
          label={t('shop.bay.endOf', { name: props.bay.name })}
          onPress={() => setEnding(!ending)}
        >
          {t('shop.bay.end')}
        </LinkButton>
      </div>
      {ending ? <Ending bay={props.bay} /> : null}
      <Refusal refusal={change.refusal} />
    </div>
  );
}

function Ending(props: { readonly bay: Bay }): ReactNode {
  const t = useText();
  const { bayId, revision } = props.bay;
  const end = useCommand('bays.endBay');
  const [lastDay, setLastDay] = useState<LocalDay | null>(null);
  return (
    <>
      <div className={css['endRow']}>
        <DayField label={t('shop.lastDay')} value={lastDay} onChange={setLastDay} />
        <Button
          busy={end.busy}
          why={lastDay === null ? t('shop.lastDay') : undefined}
          onPress={() => (lastDay ? void end.run({ bayId, revision, lastDay }) : undefined)}
        >
          {t('shop.end')}
        </Button>
      </div>
      <Refusal refusal={end.refusal} />
    </>
  );
}

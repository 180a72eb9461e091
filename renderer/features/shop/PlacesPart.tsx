import { type ReactNode, useEffect, useRef, useState } from 'react';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import type { BayKind } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import { BayFields } from './BayFields.tsx';
import { NewBay } from './NewBay.tsx';
import css from './shop.module.css';
import { useTyped } from './useTyped.ts';

type Bay = BaysSetupView['bays'][number];

/** Bays and yard: names and set-up saved as they are typed; one more; the first and the last day of one. */
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

type Change = {
  readonly name?: string;
  readonly kind?: BayKind;
  readonly capacity?: number;
  readonly setupMin?: number;
  readonly startedDay?: LocalDay;
};

function OneBay(props: { readonly bay: Bay }): ReactNode {
  const t = useText();
  const { bayId, revision } = props.bay;
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [days, setDays] = useState(false);
  const change = useCommand('bays.changeBay');
  const [name, setName] = useTyped(props.bay.name, change.busy);
  const put = (part: Change): void => void change.run({ bayId, revision, ...part });
  const rename = useOnce(props.bay.name, (typed) => put({ name: typed }));
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
        <BayFields bay={props.bay} off={off} onChange={put} />
        <LinkButton
          quiet
          why={off}
          label={t('shop.bay.daysOf', { name: props.bay.name })}
          onPress={() => setDays(!days)}
        >
          {t('shop.bay.days')}
        </LinkButton>
      </div>
      {days ? (
        <Days bay={props.bay} busy={change.busy} onFirst={(startedDay) => put({ startedDay })} />
      ) : null}
      <Refusal refusal={change.refusal} />
    </div>
  );
}

/**
 * Sends a name once: Enter and leaving the field both say that it is done, and the answer to the first is not here
 * yet at the second.
 */
function useOnce(stored: string, send: (typed: string) => void): (typed: string) => void {
  const sent = useRef(stored);
  useEffect(() => {
    sent.current = stored;
  }, [stored]);
  return (typed) => {
    if (typed.trim() === '' || typed === sent.current) return;
    sent.current = typed;
    send(typed);
  };
}

type DaysProps = { readonly bay: Bay; readonly onFirst: (day: LocalDay) => void; readonly busy: boolean };

function Days(props: DaysProps): ReactNode {
  const t = useText();
  const { bayId, revision, startedDay } = props.bay;
  const end = useCommand('bays.endBay');
  const [firstDay, setFirstDay] = useState<LocalDay | null>(startedDay);
  const [lastDay, setLastDay] = useState<LocalDay | null>(null);
  const noChange = firstDay === null || firstDay === startedDay ? t('shop.bay.needsFirst') : undefined;
  return (
    <>
      <div className={css['endRow']}>
        <DayField label={t('shop.firstDay')} value={firstDay} onChange={setFirstDay} />
        <Button
          busy={props.busy}
          why={noChange}
          onPress={() => (firstDay ? props.onFirst(firstDay) : undefined)}
        >
          {t('shop.begin')}
        </Button>
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

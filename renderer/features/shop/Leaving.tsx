import { type ReactNode, useState } from 'react';
import { when } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { StaffRow } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

const MINUTE_MS = 60_000;

/** Somebody's last day, and what is still placed with them after it: seen before the day is kept, and until it is moved. */
export function Leaving(props: { readonly person: StaffRow }): ReactNode {
  const t = useText();
  const { id: personId, revision, endedDay } = props.person;
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [lastDay, setLastDay] = useState<LocalDay | null>(endedDay);
  const end = useCommand('access.endPerson');
  const why = off ?? (lastDay === null ? t('shop.needsLastDay') : undefined);
  return (
    <Stack gap={1}>
      <DayField label={t('shop.lastDay')} value={lastDay} onChange={setLastDay} off={off} />
      {lastDay ? <StillPlaced person={props.person} lastDay={lastDay} /> : null}
      <Row>
        <LinkButton
          why={why}
          onPress={() => (lastDay ? void end.run({ personId, revision, lastDay }) : undefined)}
        >
          {t('shop.end')}
        </LinkButton>
      </Row>
      <Refusal refusal={end.refusal} />
    </Stack>
  );
}

function StillPlaced(props: { readonly person: StaffRow; readonly lastDay: LocalDay }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { person, lastDay } = props;
  const may = useMay('desk');
  const asked = useQuery('access.futureStages', { personId: person.id, lastDay }, { keep: true, when: may });
  const stages = asked.data ?? [];
  if (asked.error) return <Refusal refusal={asked.error} />;
  if (!asked.data) return null;
  if (stages.length === 0) return <p className="t1 quiet">{t('shop.nothingPlaced')}</p>;
  return (
    <>
      <p>
        <span className="lamp">{t('shop.stillPlaced', { name: person.name, count: stages.length })}</span>{' '}
        <LinkTo to="/bays">{t('shop.toBoard')}</LinkTo>
      </p>
      <List label={t('shop.stillPlaced', { name: person.name, count: stages.length })}>
        {stages.map((s) => (
          <Item key={`${s.jobId} ${s.stage} ${s.startMin}`} lit>
            <span className={css['awayRow']}>
              <span>{when(manner, s.startMin * MINUTE_MS, Date.now())}</span>
              <span className="cut">
                {t(`word.stage.${s.stage}`)}, {s.customer}
              </span>
              <LinkTo quiet to={`/jobs/${s.jobId}`}>
                {t('shop.ofJob', { number: s.number })}
              </LinkTo>
            </span>
          </Item>
        ))}
      </List>
    </>
  );
}

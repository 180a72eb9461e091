import type { ReactNode } from 'react';
import { useMe } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { PinOf } from './OnePerson.tsx';
import css from './shop.module.css';

/** What of the Shop place is a technician's own: their PIN. The rest says whose it is. */
export function Mine(): ReactNode {
  const t = useText();
  const me = useMe();
  const people = useQuery('access.people', {});
  const person = people.data?.find((p) => p.id === me?.personId);
  return (
    <Place label={t('shop.title')}>
      <div className={css['form']}>
        <Head title={t('shop.title')} note={person?.name} />
        <Stack gap={3}>
          <p className="quiet">{t('shop.mine')}</p>
          {person ? <PinOf key={person.revision} person={person} /> : null}
          <Row>
            <LinkTo to="/who">{t('access.somebodyElse')}</LinkTo>
            <LinkTo to="/desk">{t('access.today')}</LinkTo>
            <LinkTo to="/steps">{t('shop.part.steps')}</LinkTo>
          </Row>
        </Stack>
      </div>
    </Place>
  );
}

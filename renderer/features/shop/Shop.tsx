import { type ReactNode, useState } from 'react';
import { hasEnded } from '#core/shared/ended.ts';
import { mayUse } from '#core/shared/roles.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import { useMay, useMe } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText, useToday } from '../../bridge/texts.tsx';
import { Column, Foot, Head, Place } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { CalmNote, Refusal, Waiting } from '../../ui/States.tsx';
import { BaysPart } from './BaysPart.tsx';
import { ChargesPart } from './ChargesPart.tsx';
import { CopiesPart } from './CopiesPart.tsx';
import { chargesSaid } from './chargesSaid.ts';
import { LeaveDemo } from './DemoLine.tsx';
import { DetailsPart } from './DetailsPart.tsx';
import { JournalPart } from './JournalPart.tsx';
import { LogoPart } from './LogoPart.tsx';
import { Mine } from './Mine.tsx';
import { PeoplePart } from './PeoplePart.tsx';
import { RatesPart } from './RatesPart.tsx';
import { RulesPart } from './RulesPart.tsx';
import css from './shop.module.css';
import { TaxesPart } from './TaxesPart.tsx';
import { wentBack } from './wentBack.ts';

const PARTS = [
  ...(['details', 'people', 'bays', 'steps', 'rates', 'charges', 'taxes'] as const),
  ...(['rules', 'copies', 'journal'] as const),
] as const;
type Part = (typeof PARTS)[number];

/** What other areas bring to the place: the machine steps of the shop. */
type Brought = { readonly steps: ReactNode };

/** The Shop place; a technician sees what of it is theirs. */
export function Shop(props: Brought): ReactNode {
  const me = useMe();
  if (!me) return null;
  return mayUse(me.role, 'desk') ? <ShopParts {...props} /> : <Mine />;
}

/** Parts on the left, each with a sentence of what is set; the chosen one on the right. */
function ShopParts(brought: Brought): ReactNode {
  const t = useText();
  // A window that begins anew with another file opens where that was asked for, and says so.
  const [part, setPart] = useState<Part>(() => (wentBack() ? 'copies' : 'details'));
  const page = useQuery('shop.page', {});
  const people = useQuery('access.people', {});
  const isOwner = useMay('owner');
  const today = useToday();
  if (!page.data)
    return (
      <Place label={t('shop.title')}>{page.error ? <Refusal refusal={page.error} /> : <Waiting />}</Place>
    );
  const { shop, rates, taxes } = page.data;
  const said: Readonly<Record<Part, string>> = {
    details: t('shop.say.details', { name: shop.name, zone: shop.zone, currency: shop.currency }),
    people: people.data
      ? t('shop.say.people', { count: people.data.filter((p) => !hasEnded(p, today)).length })
      : '',
    rates: t('shop.say.rates', { count: rates.filter((r) => r.holds).length }),
    taxes: t('shop.say.taxes', { count: taxes.filter((r) => r.holds).length }),
    charges: chargesSaid(page.data, t),
    rules: t('shop.say.rules'),
    journal: t('shop.say.journal'),
    bays: t('shop.say.bays'),
    steps: t('shop.say.steps'),
    copies: t('shop.say.copies'),
  };
  return (
    <Place label={t('shop.title')} columns="left">
      <Column label={t('shop.title')}>
        <Head title={t('shop.title')} note={shop.name} />
        <div className={css['parts']}>
          <List label={t('shop.title')}>
            {PARTS.map((one) => (
              <Item key={one} selected={one === part} onPress={() => setPart(one)}>
                <span className={css['step']}>
                  <b>{t(`shop.part.${one}`)}</b>
                  <span className="t1 quiet cut">{said[one]}</span>
                </span>
              </Item>
            ))}
          </List>
        </div>
        <Foot>
          {shop.isDemo ? <LeaveDemo /> : null}
          <p className="t1 dusty">{t('shop.caution')}</p>
        </Foot>
      </Column>
      <Column divided label={t(`shop.part.${part}`)}>
        <Head title={t(`shop.part.${part}`)} />
        {isOwner ? null : <CalmNote text={t('shop.onlyOwner')} />}
        <PartOf part={part} page={page.data} {...brought} />
      </Column>
    </Place>
  );
}

function PartOf(props: Brought & { readonly part: Part; readonly page: ShopPage }): ReactNode {
  const { page } = props;
  switch (props.part) {
    case 'details':
      return (
        <>
          <DetailsPart shop={page.shop} />
          <LogoPart logoHash={page.logoHash} />
        </>
      );
    case 'people':
      return <PeoplePart />;
    case 'rates':
      return <RatesPart page={page} />;
    case 'charges':
      return <ChargesPart page={page} />;
    case 'taxes':
      return <TaxesPart page={page} />;
    case 'rules':
      return <RulesPart shop={page.shop} />;
    case 'journal':
      return <JournalPart />;
    case 'bays':
      return <BaysPart />;
    case 'steps':
      return props.steps;
    case 'copies':
      return <CopiesPart />;
  }
}

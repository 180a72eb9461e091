import { type ReactNode, useEffect, useRef } from 'react';
import { dayText } from '#core/shared/text/when.ts';
import type { CustomerHit, VehicleLine } from '#core/shared/views/people.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import css from './takeIn.module.css';
import type { TakeIn } from './useTakeIn.ts';

function samePlate(a: string, b: string): boolean {
  const key = (plate: string): string => plate.toUpperCase().replace(/[^\p{L}\p{N}]+/gu, '');
  return key(a) === key(b);
}

/** The vehicle that is likely meant: the one with the typed plate, else the only one. */
function likelyVehicle(hit: CustomerHit, plate: string): VehicleLine | null {
  if (plate !== '') return hit.vehicles.find((v) => samePlate(v.plate, plate)) ?? null;
  return hit.vehicles.length === 1 ? (hit.vehicles[0] ?? null) : null;
}

/** Is it somebody known? By the same telephone or plate, or by the name alone. Nothing is taken without a yes. */
export function AlmostNote(props: { readonly takeIn: TakeIn }): ReactNode {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const { caller, ids, asked, takeKnown, save } = props.takeIn;
  const yes = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asked > 0) yes.current?.focus();
  }, [asked]);
  const open = ids.customer === null && caller.name.trim().length >= 2;
  const { name, phone, plate } = caller;
  const almost = useQuery('people.findAlmost', { name, phone, plate }, { when: open, keep: true });
  const named = useQuery('people.findCustomers', { text: name, limit: 3 }, { when: open, keep: true });
  if (!open) return null;
  const match = almost.data;
  const hits = match ? [match.customer] : (named.data ?? []);
  if (hits.length === 0) return null;
  return (
    // A click here must not first leave the field and write somebody new.
    <section
      className={css['almost']}
      data-question
      aria-label={t('takeIn.almost')}
      onMouseDown={(e) => e.preventDefault()}
    >
      {hits.map((hit, i) => (
        <div key={hit.id}>
          <p>
            <b>{match?.customer.id === hit.id ? <Marked name={hit.name} at={match.inKnown} /> : hit.name}</b>{' '}
            <span className="quiet">
              {match?.customer.id === hit.id
                ? t('takeIn.same', { same: match.same, letters: match.letters })
                : hit.phone}
            </span>
          </p>
          <p className="t1 quiet">
            {hit.vehicles.map((v) => [v.makeModel, v.plate].filter(Boolean).join(', ')).join(' · ')}{' '}
            {t('takeIn.visits', { visits: hit.visits })}
            {hit.lastVisitDay ? `, ${dayText(manner, hit.lastVisitDay, today)}` : ''}
          </p>
          <Row>
            <Button ref={i === 0 ? yes : null} onPress={() => void takeKnown(hit, likelyVehicle(hit, plate))}>
              {t('takeIn.itIs')}
            </Button>
            {match ? (
              <LinkButton onPress={() => void save('anew')}>{t('takeIn.someoneNew')}</LinkButton>
            ) : null}
          </Row>
        </div>
      ))}
    </section>
  );
}

/** A name with the differing letters underlined. */
function Marked(props: { readonly name: string; readonly at: readonly number[] }): ReactNode {
  return [...props.name].map((letter, i) =>
    // biome-ignore lint/suspicious/noArrayIndexKey: letters of one name, by place
    props.at.includes(i) ? <mark key={i}>{letter}</mark> : letter,
  );
}

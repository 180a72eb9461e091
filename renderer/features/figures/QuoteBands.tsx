import type { ReactNode } from 'react';
import { money, range } from '#core/shared/text/format.ts';
import type { MoneyFiguresView, QuoteBand } from '#core/shared/views/figuresMoney.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import css from './bands.module.css';

/** Quotes agreed to, by what was asked and by how long the customer waited for the quote. */
export function QuoteBands(props: {
  readonly view: MoneyFiguresView;
  readonly busy: boolean;
  readonly onCsv: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { quotes } = props.view;
  const price = (b: QuoteBand): string =>
    b.to === null
      ? t('figures.bandFrom', { from: money(manner, b.from) })
      : range(money(manner, b.from), money(manner, b.to - 1));
  const wait = (b: QuoteBand): string =>
    b.to === null
      ? t('figures.waitFrom', { days: b.from })
      : t('figures.waitDays', { days: range(String(b.from), String(b.to - 1)) });
  return (
    <section aria-label={t('figures.quotes')}>
      <Head
        title={t('figures.quotes')}
        note={
          quotes.answered === 0
            ? undefined
            : t('figures.quotesNote', { accepted: quotes.accepted, answered: quotes.answered })
        }
      >
        <LinkButton
          quiet
          busy={props.busy}
          label={t('figures.csvOf', { title: t('figures.quotes') })}
          onPress={props.onCsv}
        >
          {t('figures.csv')}
        </LinkButton>
      </Head>
      {quotes.answered === 0 ? <p className="quiet">{t('figures.quotesNone')}</p> : null}
      <div className={css['bands']}>
        <Bands title={t('figures.byPrice')} bands={quotes.byPrice} nameOf={price} />
        <Bands title={t('figures.byWait')} bands={quotes.byWait} nameOf={wait} />
      </div>
    </section>
  );
}

function Bands(props: {
  readonly title: string;
  readonly bands: readonly QuoteBand[];
  readonly nameOf: (band: QuoteBand) => string;
}): ReactNode {
  const t = useText();
  if (props.bands.length === 0) return null;
  return (
    <table className={css['band']}>
      <caption>{props.title}</caption>
      <tbody>
        {props.bands.map((band) => {
          const percent = band.answered === 0 ? 0 : (band.accepted / band.answered) * 100;
          return (
            <tr key={band.from}>
              <th scope="row">{props.nameOf(band)}</th>
              <td className={css['bar']}>
                <i data-form="done" style={{ width: `${percent}%` }} />
              </td>
              <td>{t('figures.bandOf', { accepted: band.accepted, answered: band.answered })}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

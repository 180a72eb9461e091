import type { ReactNode } from 'react';
import { type ListPriceRow, panelsTotal, pricedPanels } from '#core/shared/listPrices.ts';
import { fitsPackage } from '#core/shared/packages.ts';
import { money, rate } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import type { ChargeKind, PackageRow } from '#core/shared/views/shop.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Check } from '../../ui/Choice.tsx';
import { type Asks, asksBefore, NO_ASKS, offeredOf } from './asksBefore.ts';
import { ThingsAsk } from './ThingsAsk.tsx';

/** What a quote begins with: nothing, or what the version before it asked for. */
export function useBegin(
  jobId: string,
  estimates: readonly EstimateView[],
  before: QuoteView | undefined,
): Asks {
  const page = useQuery('shop.page', {}).data;
  const job = useQuery('bookings.job', { jobId }).data;
  if (!before || !page || !job) return NO_ASKS;
  return asksBefore(before, estimates, offeredOf(page.packages), job.vehicle.body);
}

type AsksProps = {
  readonly jobId: string;
  readonly estimates: readonly EstimateView[];
  readonly value: Asks;
  readonly onChange: (asks: Asks) => void;
};

/** Packages of the shop that an estimate could be priced by, its surcharges and things. Nothing where it has none. */
export function PriceAsks(props: AsksProps): ReactNode {
  const t = useText();
  const { value } = props;
  const page = useQuery('shop.page', {}).data;
  const job = useQuery('bookings.job', { jobId: props.jobId }).data;
  if (!page || !job) return null;
  const offered = offeredOf(page.packages);
  const list = page.listPrices.filter((row) => row.holds);
  const share = (kind: ChargeKind): number =>
    page.charges.find((c) => c.holds && c.kind === kind)?.sharePpm ?? 0;
  return (
    <>
      {props.estimates.flatMap((estimate) =>
        offered
          .filter((pack) => fitsPackage(pack, estimate, job.vehicle.body))
          .map((pack) => (
            <PackageCheck key={`${estimate.id} ${pack.id}`} {...props} {...{ estimate, pack }} />
          )),
      )}
      {props.estimates.map((estimate) => (
        <PanelCheck key={estimate.id} {...props} estimate={estimate} list={list} />
      ))}
      {props.estimates.some((e) => value.packages[e.id] || value.byPanel.includes(e.id)) ? (
        <p className="t1 dusty">{t('quote.packageFixes')}</p>
      ) : null}
      {(['rush', 'afterHours'] as const).map((kind) => (
        <Surcharge
          key={kind}
          kind={kind}
          sharePpm={share(kind)}
          value={value[kind]}
          onChange={(on) => props.onChange({ ...value, [kind]: on })}
        />
      ))}
      <ThingsAsk
        estimates={props.estimates}
        value={value.things}
        onChange={(things) => props.onChange({ ...value, things })}
      />
    </>
  );
}

function PackageCheck(
  props: AsksProps & { readonly estimate: EstimateView; readonly pack: PackageRow },
): ReactNode {
  const t = useText();
  const manner = useManner();
  const { estimate, pack, value } = props;
  const price = money(manner, pack.priceMinor ?? 0);
  return (
    <Check
      label={t('quote.asPackage', { version: estimate.version, name: pack.name, price })}
      value={value.packages[estimate.id] === pack.id}
      onChange={(on) => {
        const { [estimate.id]: _, ...others } = value.packages;
        props.onChange({ ...value, packages: on ? { ...others, [estimate.id]: pack.id } : others });
      }}
    />
  );
}

/** By the panel, where the shop's list has a price for each panel that is worked on. */
function PanelCheck(
  props: AsksProps & { readonly estimate: EstimateView; readonly list: readonly ListPriceRow[] },
): ReactNode {
  const t = useText();
  const manner = useManner();
  const { estimate, value } = props;
  const total = panelsTotal(pricedPanels(estimate.panels, props.list));
  if (total === null) return null;
  const others = value.byPanel.filter((id) => id !== estimate.id);
  return (
    <Check
      label={t('quote.asPanels', { version: estimate.version, price: money(manner, total) })}
      value={value.byPanel.includes(estimate.id)}
      onChange={(on) => props.onChange({ ...value, byPanel: on ? [...others, estimate.id] : others })}
    />
  );
}

function Surcharge(props: {
  readonly kind: 'rush' | 'afterHours';
  readonly sharePpm: number;
  readonly value: boolean;
  readonly onChange: (on: boolean) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  if (props.sharePpm === 0) return null;
  const share = amountText(rate(manner, props.sharePpm));
  return (
    <Check label={t(`quote.ask.${props.kind}`, { share })} value={props.value} onChange={props.onChange} />
  );
}

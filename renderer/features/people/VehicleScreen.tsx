import type { ReactNode } from 'react';
import type { VehicleId } from '#core/shared/ids.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import css from './people.module.css';
import { VehicleForm } from './VehicleForm.tsx';
import { VisitTable } from './VisitTable.tsx';

/** A vehicle: what is known of it, who keeps it, its visits. */
export function VehicleScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const vehicleId = props.params['vehicleId'] as VehicleId;
  const page = useQuery('people.vehiclePage', { vehicleId });
  if (!page.data)
    return (
      <Place label={t('people.vehicle')}>{page.error ? <Refusal refusal={page.error} /> : <Waiting />}</Place>
    );
  const { vehicle, keepers, jobs } = page.data;
  const earlier = keepers.slice(1).map((k) => k.name);
  return (
    <Place label={vehicle.makeModel || t('people.vehicle')} columns="left">
      <Column label={t('people.vehicle')}>
        <Head
          title={<span className="cut">{vehicle.makeModel || t(`word.body.${vehicle.body}`)}</span>}
          note={[vehicle.colour, vehicle.year, vehicle.plate].filter(Boolean).join(', ')}
        />
        <p className="quiet cut">
          {t('people.keptBy')} <LinkTo to={`/customers/${vehicle.customerId}`}>{vehicle.customer}</LinkTo>
          {earlier.length > 0 ? ` · ${t('people.earlierKeepers', { names: earlier.join(', ') })}` : ''}
        </p>
        <VehicleForm key={vehicle.id} vehicle={vehicle} />
      </Column>
      <Column divided label={t('people.visits')}>
        <div className={css['car']}>
          <FlatCar body={vehicle.body} label={t(`word.body.${vehicle.body}`)} />
        </div>
        <Head title={t('people.visits')}>
          <LinkTo to={`/vehicles/${vehicleId}/film`}>{t('people.film')}</LinkTo>
        </Head>
        <VisitTable jobs={jobs} who="vehicle" />
      </Column>
    </Place>
  );
}

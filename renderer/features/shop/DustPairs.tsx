import { type ReactNode, useState } from 'react';
import { hasEnded } from '#core/shared/ended.ts';
import type { BayId } from '#core/shared/ids.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useText, useToday } from '../../bridge/texts.tsx';
import { Select } from '../../ui/Select.tsx';
import { AddForm, ListAndForm } from './ListAndForm.tsx';

/** Bays so near that nobody cuts in one while a coating is fresh in the other. */
export function DustPairs(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const drop = useCommand('bays.dropDust');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const { dust, bays } = props.setup;
  const name = (id: BayId | null): string => bays.find((bay) => bay.bayId === id)?.name ?? '';
  return (
    <ListAndForm
      title={t('shop.apart.dust')}
      none={t('shop.apart.noDust')}
      rows={dust.map(({ id, bayA, bayB }) => ({
        key: id,
        what: bayA ? t('shop.apart.pair', { a: name(bayA), b: name(bayB) }) : t('shop.apart.everywhere'),
        about: t('shop.apart.means'),
        onTakeBack: () => void drop.run({ id }),
      }))}
      off={off}
      refusal={drop.refusal}
    >
      <NewPair setup={props.setup} off={off} />
      <p className="t1 dusty">{t('shop.apart.note')}</p>
    </ListAndForm>
  );
}

const ALL = 'all';

function NewPair(props: { readonly setup: BaysSetupView; readonly off: string | undefined }): ReactNode {
  const t = useText();
  const { off } = props;
  const today = useToday();
  const add = useCommand('bays.addDust');
  const [one, setOne] = useState<BayId | typeof ALL>(ALL);
  const [other, setOther] = useState<BayId | null>(null);
  const bays = props.setup.bays
    .filter((bay) => !hasEnded(bay, today) && bay.kind !== 'yard')
    .map((bay) => ({ value: bay.bayId, label: bay.name }));
  const all = one === ALL;
  const missing = !all && (other === null || other === one) ? t('shop.apart.needsOther') : undefined;
  return (
    <AddForm
      add={t('shop.apart.add')}
      why={off ?? missing}
      busy={add.busy}
      refusal={add.refusal}
      onAdd={() => void add.run(one === ALL || other === null ? {} : { pair: [one, other] })}
    >
      <Select<BayId | typeof ALL>
        label={t('shop.apart.one')}
        options={[{ value: ALL, label: t('shop.apart.everywhere') }, ...bays]}
        value={one}
        onChange={setOne}
        off={off}
      />
      {all ? null : (
        <Select<BayId | ''>
          label={t('shop.apart.other')}
          options={bays.filter((bay) => bay.value !== one)}
          value={other ?? ''}
          onChange={(id) => setOther(id === '' ? null : id)}
          off={off}
        />
      )}
    </AddForm>
  );
}

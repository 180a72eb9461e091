import { type ReactNode, useState } from 'react';
import type { BayId } from '#core/shared/ids.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

/** Bays so near that nobody cuts in one while a coating is fresh in the other. */
export function DustPairs(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const drop = useCommand('bays.dropDust');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const { dust, bays } = props.setup;
  const name = (id: BayId | null): string => bays.find((bay) => bay.bayId === id)?.name ?? '';
  return (
    <>
      <Head level={3} title={t('shop.apart.dust')} />
      {dust.length === 0 ? <p className="t1 quiet">{t('shop.apart.noDust')}</p> : null}
      <List label={t('shop.apart.dust')}>
        {dust.map(({ id, bayA, bayB }) => (
          <Item key={id}>
            <span className={css['awayRow']}>
              <span className="cut">
                {bayA ? t('shop.apart.pair', { a: name(bayA), b: name(bayB) }) : t('shop.apart.everywhere')}
              </span>
              <span className="quiet cut">{t('shop.apart.means')}</span>
              <LinkButton quiet why={off} onPress={() => void drop.run({ id })}>
                {t('shop.away.takeBack')}
              </LinkButton>
            </span>
          </Item>
        ))}
      </List>
      <Refusal refusal={drop.refusal} />
      <NewPair setup={props.setup} off={off} />
      <p className="t1 dusty">{t('shop.apart.note')}</p>
    </>
  );
}

const ALL = 'all';

function NewPair(props: { readonly setup: BaysSetupView; readonly off: string | undefined }): ReactNode {
  const t = useText();
  const { off } = props;
  const add = useCommand('bays.addDust');
  const [one, setOne] = useState<BayId | typeof ALL>(ALL);
  const [other, setOther] = useState<BayId | null>(null);
  const bays = props.setup.bays
    .filter((bay) => bay.endedDay === null && bay.kind !== 'yard')
    .map((bay) => ({ value: bay.bayId, label: bay.name }));
  const all = one === ALL;
  const missing = !all && (other === null || other === one) ? t('shop.apart.needsOther') : undefined;
  return (
    <>
      <div className={css['apartForm']}>
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
        <Button
          why={off ?? missing}
          busy={add.busy}
          onPress={() => void add.run(one === ALL || other === null ? {} : { pair: [one, other] })}
        >
          {t('shop.apart.add')}
        </Button>
      </div>
      <Refusal refusal={add.refusal} />
    </>
  );
}

import { type ReactNode, useState } from 'react';
import { BAY_KINDS, type BayKind } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

/** One more bay, or a yard. */
export function NewBay(): ReactNode {
  const t = useText();
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [name, setName] = useState('');
  const [kind, setKind] = useState<BayKind>('correction');
  const [cars, setCars] = useState(1);
  const add = useCommand('bays.addBay');
  async function put(): Promise<void> {
    const done = await add.run({ name, kind, capacity: kind === 'yard' ? cars : 1 });
    if (done.ok) setName('');
  }
  return (
    <>
      <Head level={3} title={t('shop.bay.new')} />
      <div className={css['bayRow']}>
        <TextField label={t('shop.bay.newName')} value={name} maxLength={60} onChange={setName} off={off} />
        <Select
          label={t('shop.bay.kind')}
          options={BAY_KINDS.map((value) => ({ value, label: t(`word.bay.${value}`) }))}
          value={kind}
          onChange={setKind}
          off={off}
        />
        {kind === 'yard' ? (
          <NumberField
            label={t('shop.bay.cars')}
            min={1}
            max={50}
            value={cars}
            onChange={(n) => setCars(n ?? 1)}
          />
        ) : (
          <span />
        )}
        <Button
          busy={add.busy}
          why={off ?? (name.trim() === '' ? t('shop.bay.needsName') : undefined)}
          onPress={() => void put()}
        >
          {t('shop.bay.add')}
        </Button>
      </div>
      <Refusal refusal={add.refusal} />
    </>
  );
}

import { type ReactNode, useState } from 'react';
import type { ItemId } from '#core/shared/ids.ts';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayOf } from '#core/shared/text/when.ts';
import type { StockBoard } from '#core/shared/views/stock.ts';
import type { Material } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';

const NONE: readonly number[] = [];

/** What stages used of a material before an item of it was kept: to be taken from one, or removed with a reason. */
export function Uses(props: {
  readonly material: Material;
  readonly items: StockBoard['items'];
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const [off, setOff] = useState(NONE);
  const uses = useQuery('stock.usesWithoutItem', { material: props.material });
  if (!uses.data) return uses.error ? <Refusal refusal={uses.error} /> : <Waiting />;
  const useIds = uses.data.map((use) => use.id).filter((id) => !off.includes(id));
  return (
    <Stack gap={1}>
      <p className="t1 quiet">{t('stock.ui.usesText')}</p>
      {uses.data.map((use) => (
        <Check
          key={use.id}
          label={t('stock.ui.useLine', {
            job: use.jobNumber,
            stage: t(`word.stage.${use.stage}`),
            day: dayOf(manner, use.atMs, Date.now()),
            amount: amountText(amountOf(manner, use.unit, use.amount)),
          })}
          value={!off.includes(use.id)}
          onChange={(on) => setOff(on ? off.filter((id) => id !== use.id) : [...off, use.id])}
        />
      ))}
      <Give {...props} useIds={useIds} />
      <Wrong useIds={useIds} onDone={props.onDone} />
    </Stack>
  );
}

function Give(props: {
  readonly material: Material;
  readonly items: StockBoard['items'];
  readonly useIds: readonly number[];
}): ReactNode {
  const t = useText();
  const { material, useIds } = props;
  const items = props.items.filter((item) => item.material === material);
  const [chosen, setChosen] = useState<ItemId | null>(null);
  const itemId = chosen ?? items[0]?.id ?? null;
  const give = useCommand('stock.giveUses');
  if (itemId === null)
    return <p className="quiet">{t('stock.ui.usesNoItem', { material: t(`word.material.${material}`) })}</p>;
  return (
    <>
      <Select
        label={t('stock.ui.usesFrom')}
        value={itemId}
        onChange={setChosen}
        options={items.map((item) => ({ value: item.id, label: item.name }))}
      />
      <Refusal refusal={give.refusal} />
      <Row>
        <LinkButton
          busy={give.busy}
          why={useIds.length === 0 ? t('stock.ui.usesFirst') : undefined}
          onPress={() => void give.run({ useIds: [...useIds], itemId })}
        >
          {t('stock.ui.usesGive')}
        </LinkButton>
      </Row>
    </>
  );
}

function Wrong(props: { readonly useIds: readonly number[]; readonly onDone: () => void }): ReactNode {
  const t = useText();
  const { useIds, onDone } = props;
  const [why, setWhy] = useState('');
  const remove = useCommand('stock.removeUses');
  const lacks =
    useIds.length === 0
      ? t('stock.ui.usesFirst')
      : why.trim().length < 3
        ? t('stock.ui.usesWhyFirst')
        : undefined;
  return (
    <>
      <TextField label={t('stock.ui.usesWhy')} value={why} onChange={setWhy} maxLength={300} />
      <Refusal refusal={remove.refusal} />
      <Row>
        <LinkButton
          busy={remove.busy}
          why={lacks}
          onPress={() => void remove.run({ useIds: [...useIds], why })}
        >
          {t('stock.ui.usesRemove')}
        </LinkButton>
        <LinkButton onPress={onDone}>{t('stock.ui.leave')}</LinkButton>
      </Row>
    </>
  );
}

import type { ReactNode } from 'react';
import { BAY_KINDS, type BayKind } from '#core/shared/vocabulary.ts';
import { useText } from '../../bridge/texts.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';

export type BayPart = { readonly kind?: BayKind; readonly capacity?: number; readonly setupMin?: number };

/** What a place is for, how many cars it holds, what it needs before the next one. */
export function BayFields(props: {
  readonly bay: { readonly kind: BayKind; readonly capacity: number; readonly setupMin: number };
  /** Why none of it may be changed. */
  readonly off?: string | undefined;
  readonly onChange: (part: BayPart) => void;
}): ReactNode {
  const t = useText();
  const { bay, off, onChange } = props;
  return (
    <>
      <Select
        label={t('shop.bay.kind')}
        options={BAY_KINDS.map((value) => ({ value, label: t(`word.bay.${value}`) }))}
        value={bay.kind}
        off={off}
        onChange={(kind) => onChange({ kind })}
      />
      {bay.kind === 'yard' ? (
        <NumberField
          label={t('shop.bay.cars')}
          min={1}
          max={50}
          value={bay.capacity}
          off={off}
          saves
          onChange={(capacity) => onChange({ capacity: capacity ?? 1 })}
        />
      ) : (
        <span />
      )}
      <NumberField
        label={t('shop.bay.setup')}
        unit="min"
        min={0}
        max={240}
        value={bay.setupMin}
        off={off}
        saves
        onChange={(setupMin) => onChange({ setupMin: setupMin ?? 0 })}
      />
    </>
  );
}

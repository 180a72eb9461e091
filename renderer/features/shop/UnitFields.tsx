import type { ReactNode } from 'react';
import type { ShopUnits } from '#core/shared/views/shop.ts';
import { useText } from '../../bridge/texts.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import css from './shop.module.css';

/** How film, liquids and lengths are written, and on what paper. */
export function UnitFields(props: {
  readonly units: ShopUnits;
  readonly onChange: (units: Partial<ShopUnits>) => void;
  readonly off?: string | undefined;
}): ReactNode {
  const t = useText();
  const { units, onChange, off: why } = props;
  return (
    <div className={css['units']}>
      <Segmented
        label={t('shop.filmUnit')}
        value={units.filmUnit}
        options={[
          { value: 'um', label: 'µm', why },
          { value: 'mil', label: 'mil', why },
        ]}
        onChange={(filmUnit) => onChange({ filmUnit })}
      />
      <Segmented
        label={t('shop.volumeUnit')}
        value={units.volumeUnit}
        options={[
          { value: 'ml', label: 'ml', why },
          { value: 'floz', label: 'fl oz', why },
        ]}
        onChange={(volumeUnit) => onChange({ volumeUnit })}
      />
      <Segmented
        label={t('shop.lengthUnit')}
        value={units.lengthUnit}
        options={[
          { value: 'm', label: 'm', why },
          { value: 'ft', label: 'ft', why },
        ]}
        onChange={(lengthUnit) => onChange({ lengthUnit })}
      />
      <Segmented
        label={t('shop.paper')}
        value={units.paper}
        options={[
          { value: 'A4', label: 'A4', why },
          { value: 'Letter', label: 'Letter', why },
        ]}
        onChange={(paper) => onChange({ paper })}
      />
    </div>
  );
}

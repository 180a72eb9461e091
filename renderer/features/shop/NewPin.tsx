import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { TextField } from '../../ui/Field.tsx';

/** Typed twice, since it is hidden: a slip would lock its owner out, and the only owner out of the shop. */
export function NewPin(props: {
  readonly label: string;
  readonly hint?: string;
  readonly pin: string;
  readonly again: string;
  readonly onPin: (pin: string) => void;
  readonly onAgain: (again: string) => void;
  readonly error?: string | undefined;
  readonly off?: string | undefined;
}): ReactNode {
  const t = useText();
  const { pin, again } = props;
  const differs = again !== '' && !pin.startsWith(again);
  return (
    <>
      <TextField
        secret
        label={props.label}
        hint={props.hint}
        maxLength={12}
        value={pin}
        onChange={props.onPin}
        error={props.error}
        off={props.off}
      />
      {pin === '' && again === '' ? null : (
        <TextField
          secret
          label={t('shop.pinAgain')}
          note={t('shop.pinAgainWhy')}
          maxLength={12}
          value={again}
          onChange={props.onAgain}
          error={differs ? t('shop.pinDiffers') : undefined}
          off={props.off}
        />
      )}
    </>
  );
}

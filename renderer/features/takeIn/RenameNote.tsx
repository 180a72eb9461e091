import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { alike } from './alike.ts';
import css from './takeIn.module.css';
import type { TakeIn } from './useTakeIn.ts';

/** True while the name typed over a kept customer reads like somebody else's. */
export function isOther({ ids, draft }: Pick<TakeIn, 'ids' | 'draft'>): boolean {
  return ids.customer !== null && !alike(draft.saved.name, draft.caller.name);
}

/** Another name over somebody who is kept already: put right, or the next caller? Nothing is written without a yes. */
export function RenameNote(props: { readonly takeIn: TakeIn; readonly onOther: () => void }): ReactNode {
  const t = useText();
  const { takeIn } = props;
  if (!isOther(takeIn)) return null;
  const names = { was: takeIn.draft.saved.name, is: takeIn.caller.name };
  return (
    <section className={css['almost']} data-question aria-label={t('takeIn.other')}>
      <p>{t('takeIn.otherName', names)}</p>
      <Row>
        <Button onPress={props.onOther}>{t('takeIn.otherCall', names)}</Button>
        <LinkButton onPress={() => void takeIn.save('anew')}>{t('takeIn.rename', names)}</LinkButton>
      </Row>
    </section>
  );
}

import type { ReactNode } from 'react';
import type { SheetPlace } from '#core/shared/views/stockItem.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';

/** What the liquids of a stage do to people, in the words of their labels, and their data sheets to open. */
export function Sheets(props: { readonly of: readonly SheetPlace[] }): ReactNode {
  const t = useText();
  const file = useDocument('stock.sheetFile');
  const readable = props.of.filter((s) => s.hasFile || /^https?:\/\//.test(s.link));
  return (
    <>
      {props.of
        .filter((s) => s.hazards !== '')
        .map((s) => (
          <Caution key={s.itemId}>{t('card.hazards', { item: s.itemName, hazards: s.hazards })}</Caution>
        ))}
      {readable.length > 0 ? (
        <Row>
          {readable.map((s) => {
            const name = t('card.sheet', { item: s.itemName });
            return s.hasFile ? (
              <LinkButton key={s.itemId} onPress={() => void file.open({ itemId: s.itemId })}>
                {name}
              </LinkButton>
            ) : (
              <a key={s.itemId} href={s.link} target="_blank" rel="noreferrer">
                {name}
              </a>
            );
          })}
        </Row>
      ) : null}
      <Refusal refusal={file.refusal} />
    </>
  );
}

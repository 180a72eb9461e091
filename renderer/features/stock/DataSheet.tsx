import { type ReactNode, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { isLarger, SHEET_MOST_MB } from '#core/shared/fileSizes.ts';
import type { StockItemPage } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { base64Of } from '../../bridge/fileText.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { ChooseFile } from '../../ui/ChooseFile.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

const TOO_LARGE = {
  code: 'SHEET_TOO_LARGE',
  data: { mostMb: SHEET_MOST_MB },
} as const satisfies PlainError;

/** The item's safety data sheet: where it is on the web, and the file that is kept with the shop's own. */
export function DataSheet(props: { readonly page: StockItemPage }): ReactNode {
  const t = useText();
  const { item, sheetFile } = props.page;
  const add = useCommand('stock.addSheet');
  const remove = useCommand('stock.removeSheet');
  const file = useDocument('stock.sheetFile');
  const [tooLarge, setTooLarge] = useState(false);
  async function keep([chosen]: readonly File[]): Promise<void> {
    if (!chosen) return;
    const large = isLarger(chosen.size, SHEET_MOST_MB);
    setTooLarge(large);
    if (large) return;
    const sheetBase64 = await base64Of(chosen);
    await add.run({ itemId: item.id, calledAs: chosen.name, sheetBase64 });
  }
  return (
    <Stack gap={1}>
      <Head level={3} title={t('stock.ui.sheet')} />
      <SheetLink at={item.sheet} />
      {sheetFile ? (
        <Row>
          <LinkButton onPress={() => void file.open({ itemId: item.id })}>{sheetFile.name}</LinkButton>
          <LinkButton quiet onPress={() => void remove.run({ itemId: item.id })}>
            {t('stock.ui.sheetOut')}
          </LinkButton>
        </Row>
      ) : (
        <p className="quiet">{t('stock.ui.noSheetFile')}</p>
      )}
      <ChooseFile
        label={t('stock.ui.sheetFile', { has: sheetFile !== null })}
        accept="application/pdf,image/jpeg,image/png"
        busy={add.busy}
        onChoose={keep}
      />
      <Refusal refusal={tooLarge ? TOO_LARGE : (add.refusal ?? remove.refusal ?? file.refusal)} />
    </Stack>
  );
}

/** A web address opens; anything else is a note of where it lies. */
function SheetLink(props: { readonly at: string }): ReactNode {
  if (props.at === '') return null;
  if (!/^https?:\/\//.test(props.at)) return <p>{props.at}</p>;
  return (
    <p>
      <a href={props.at} target="_blank" rel="noreferrer">
        {props.at}
      </a>
    </p>
  );
}

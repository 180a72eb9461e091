import type { ReactNode } from 'react';
import type { StockItemPage } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { base64Of } from '../../bridge/fileText.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { ChooseFile } from '../../ui/ChooseFile.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** The item's safety data sheet: where it is on the web, and the file that is kept with the shop's own. */
export function DataSheet(props: { readonly page: StockItemPage }): ReactNode {
  const t = useText();
  const { item, sheetFile } = props.page;
  const add = useCommand('stock.addSheet');
  const remove = useCommand('stock.removeSheet');
  const file = useDocument('stock.sheetFile');
  async function keep(files: readonly File[]): Promise<void> {
    const [chosen] = files;
    if (!chosen) return;
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
      <Refusal refusal={add.refusal ?? remove.refusal ?? file.refusal} />
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

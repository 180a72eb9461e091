import { type ReactNode, useState } from 'react';
import { textOf } from '../../bridge/fileText.ts';
import { useText } from '../../bridge/texts.tsx';
import { ChooseFile } from '../../ui/ChooseFile.tsx';

const MOST_KB = 850;

/** A list from a file of this computer; null while there is none, or it is too long to be one. */
export function ChooseList(props: { readonly onChoose: (csv: string | null) => void }): ReactNode {
  const t = useText();
  const [tooLong, setTooLong] = useState(false);
  async function choose(file: File | undefined): Promise<void> {
    if (!file) return;
    const list = file.size > 2 * MOST_KB * 1000 ? null : await textOf(file);
    const fits = list !== null && sentBytes(list) <= MOST_KB * 1000;
    setTooLong(!fits);
    props.onChoose(fits ? list : null);
  }
  return (
    <>
      <ChooseFile
        label={t('stock.ui.chooseList')}
        accept=".csv,text/csv"
        onChoose={([file]) => choose(file)}
      />
      {tooLong ? <p className="lamp">{t('stock.ui.listTooLong', { most: MOST_KB })}</p> : null}
    </>
  );
}

/** As it goes to the core: quotes and line ends take two bytes each. */
function sentBytes(list: string): number {
  return new TextEncoder().encode(JSON.stringify(list)).length;
}

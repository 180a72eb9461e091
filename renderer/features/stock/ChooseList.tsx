import { type ReactNode, useState } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { ChooseFile } from '../../ui/ChooseFile.tsx';

const MOST_KB = 850;

/** A list from a file of this computer; null while there is none, or it is too long to be one. */
export function ChooseList(props: { readonly onChoose: (csv: string | null) => void }): ReactNode {
  const t = useText();
  const [tooLong, setTooLong] = useState(false);
  async function choose(file: File | undefined): Promise<void> {
    if (!file) return;
    const long = file.size > MOST_KB * 1000;
    setTooLong(long);
    props.onChoose(long ? null : await file.text());
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

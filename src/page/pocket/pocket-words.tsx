import { type Dispatch, type ReactNode, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { newWordsPhrase, remarkLabels } from '../../words/index.ts';
import { OpenRemarks } from '../remarks/open-remarks.tsx';
import { CardDialog } from '../set/card-dialog.tsx';
import type { PageAction } from '../state/index.ts';
import '../style/remarks.css';
import type { NewWords } from './use-new-words.ts';

interface PocketWordsProps {
  readonly news: NewWords;
  readonly frames: readonly Frame[];
  readonly job: string | null;
  readonly dispatch: Dispatch<PageAction>;
}

/** One line while a guest has said something that nobody has looked at here; behind it all that is open. */
export function PocketWords({ news, frames, job, dispatch }: PocketWordsProps): ReactNode {
  const [open, setOpen] = useState(false);
  const [newest] = news.words;
  return (
    <>
      {newest === undefined ? null : (
        <button
          type="button"
          className="pocket-words paper"
          onClick={() => {
            news.look();
            setOpen(true);
          }}
        >
          <strong>{newWordsPhrase(news.words.length, newest.name)}</strong> <span>{newest.text}</span>
        </button>
      )}
      <CardDialog title={remarkLabels.title} open={open} onClose={() => setOpen(false)}>
        <OpenRemarks
          title={remarkLabels.open}
          frames={frames}
          job={job}
          shown={null}
          dispatch={(action) => {
            setOpen(false);
            dispatch(action);
          }}
        />
      </CardDialog>
    </>
  );
}

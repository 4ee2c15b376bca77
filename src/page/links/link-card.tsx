import { type Dispatch, type ReactNode, useEffect, useState } from 'react';
import type { LinkList, MadeLink } from '../../contract/index.ts';
import { linkLabels, sentence } from '../../words/index.ts';
import { fetchLinks } from '../link/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { CardDialog } from '../set/card-dialog.tsx';
import type { PageAction, PageState } from '../state/index.ts';
import '../style/links.css';
import { LinkForm } from './link-form.tsx';
import { LinkRows } from './link-rows.tsx';
import { LinkToGive } from './link-to-give.tsx';

interface LinkCardProps {
  readonly state: PageState;
  readonly dispatch: Dispatch<PageAction>;
}

/** Who comes in while the card lies open is seen after so long. */
const lookEveryMs = 2000;

/** The links there are, one more, and their end. */
export function LinkCard({ state, dispatch }: LinkCardProps): ReactNode {
  const open = state.card === 'links';
  return (
    <CardDialog
      title={linkLabels.title}
      open={open}
      onClose={() => dispatch({ type: 'card-closed', card: 'links' })}
    >
      {open ? <Links openJob={state.station?.job?.code ?? null} /> : null}
    </CardDialog>
  );
}

function Links({ openJob }: { readonly openJob: string | null }): ReactNode {
  const { list, failed, look } = useLinks();
  const [made, setMade] = useState<MadeLink | null>(null);
  return (
    <div className="links">
      {made === null ? (
        <LinkForm
          openJob={openJob}
          onMade={(link) => {
            setMade(link);
            look();
          }}
        />
      ) : (
        <LinkToGive made={made} onDone={() => setMade(null)} />
      )}
      <h3>{linkLabels.living}</h3>
      {failed ? <p role="status">{linkLabels.failed}</p> : null}
      {list?.door.trouble == null ? null : (
        <p role="status">
          <PlainWords text={sentence(list.door.trouble)} />
        </p>
      )}
      {list === null ? null : (
        <LinkRows
          links={list.links}
          onEnded={(id) => {
            if (made?.link.id === id) setMade(null);
            look();
          }}
        />
      )}
      <p className="links-advice">{linkLabels.advice}</p>
    </div>
  );
}

/** The links as they are now, read again and again while somebody looks. */
function useLinks(): { list: LinkList | null; failed: boolean; look: () => void } {
  const [list, setList] = useState<LinkList | null>(null);
  const [failed, setFailed] = useState(false);
  const [asked, setAsked] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asking once more is the wish itself
  useEffect(() => {
    const stop = new AbortController();
    const read = (): void => {
      fetchLinks(stop.signal).then(
        (links) => {
          setList(links);
          setFailed(false);
        },
        () => setFailed(!stop.signal.aborted),
      );
    };
    read();
    const timer = setInterval(read, lookEveryMs);
    return () => {
      clearInterval(timer);
      stop.abort();
    };
  }, [asked]);
  return { list, failed, look: () => setAsked((count) => count + 1) };
}

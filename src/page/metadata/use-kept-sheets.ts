import { useEffect, useState } from 'react';
import type { MetadataSheets } from '../../contract/index.ts';
import { metadataLabels as labels } from '../../words/index.ts';
import { fetchMetadataSheets, wordsOf } from '../link/index.ts';

/** How long the list may take after something was done with it. */
const listMsMax = 10_000;

export interface KeptSheetsNow {
  readonly sheets: MetadataSheets['sheets'];
  readonly broken: MetadataSheets['broken'];
  /** What came of the last thing that was done; empty before. */
  readonly told: string;
  /** Does something, tells what it says of itself or why it failed, and loads the list again. */
  readonly tell: (act: () => Promise<string>) => Promise<void>;
}

/** The words that are kept for further jobs, as the station has them. */
export function useKeptSheets(): KeptSheetsNow {
  const [{ sheets, broken }, setListed] = useState<MetadataSheets>({ sheets: [], broken: [] });
  const [told, setTold] = useState('');
  useEffect(() => {
    const ended = new AbortController();
    fetchMetadataSheets(ended.signal).then(setListed, (thrown: unknown) => {
      if (!ended.signal.aborted) setTold(wordsOf(thrown, labels.notListed));
    });
    return () => ended.abort();
  }, []);
  const tell = async (act: () => Promise<string>): Promise<void> => {
    try {
      setTold(await act());
      setListed(await fetchMetadataSheets(AbortSignal.timeout(listMsMax)));
    } catch (thrown) {
      setTold(wordsOf(thrown, labels.failed));
    }
  };
  return { sheets, broken, told, tell };
}

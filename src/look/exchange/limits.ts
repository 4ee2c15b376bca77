/** Bounds on documents from elsewhere. */
export interface ExchangeLimits {
  /** Characters of one document: a lattice of 129 nodes in single precision has about 80 million. */
  readonly textCharactersMax: number;
  /** Elements within elements. CLF nests four deep, the CDL five. */
  readonly depthMax: number;
  /** Elements in all. A collection of ten thousand corrections has about eight for each. */
  readonly elementsMax: number;
  /** Attributes of one element. A logarithm has nine. */
  readonly attributesMax: number;
  /** Steps of one CLF document. Chains in use have a handful; each costs time for every colour. */
  readonly nodesMax: number;
  /** Entries of a one-dimensional table: Academy S-2014-006 asks for no more than 65,536. */
  readonly entriesMax: number;
  /** Nodes along one edge of a lattice: Academy S-2014-006 advises against more than 128; 129 is 2^7 cells. */
  readonly latticeMax: number;
}

export const defaultExchangeLimits: ExchangeLimits = {
  textCharactersMax: 120_000_000,
  depthMax: 16,
  elementsMax: 100_000,
  attributesMax: 32,
  nodesMax: 64,
  entriesMax: 65_536,
  latticeMax: 129,
};

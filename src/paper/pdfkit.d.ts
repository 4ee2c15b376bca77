/** What pdfkit has and its types leave out. */
declare namespace PDFKit {
  interface PDFPage {
    /** Colour spaces of the page by name (ISO 32000-1 section 7.8.3). */
    readonly colorSpaces: Record<string, unknown>;
  }
  interface PDFDocument {
    /** The font in hand, of a file: as fontkit reads it. */
    readonly _font: { readonly font: { hasGlyphForCodePoint(code: number): boolean } };
  }
}

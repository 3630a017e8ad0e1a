/** How a print was made, and what it is made of. */
export type Process = {
  readonly id: string;
  readonly name: string;
  readonly family: ProcessFamily;
  readonly period: string;
  /** what the image is made of, and what carries it */
  readonly material: string;
  readonly source: string;
  /** what is unsure; null when a text was read for all of it */
  readonly doubt: string | null;
};

/** Processes that ask for the same care. */
export type ProcessFamily =
  | "not-known"
  | "integral-instant"
  | "peel-apart-instant"
  | "silver"
  | "chromogenic"
  | "dye"
  | "digital"
  | "direct-thermal"
  | "early-paper"
  | "plate";

const FROM_MEMORY = "The period is from memory.";

export const PROCESSES: readonly Process[] = [
  {
    id: "not-known",
    name: "Not known",
    family: "not-known",
    period: "",
    material: "",
    source: "",
    doubt: "Treated as the most fragile process that it may be.",
  },
  {
    id: "integral-instant-colour",
    name: "Integral instant print, colour",
    family: "integral-instant",
    period: "1972 on",
    material: "dyes by diffusion transfer, sealed in a polymer laminate with polyester faces",
    source: "open encyclopedia, instant film",
    doubt: null,
  },
  {
    id: "integral-instant-monochrome",
    name: "Integral instant print, monochrome",
    family: "integral-instant",
    period: "",
    material: "silver or dye by diffusion transfer, sealed in the same laminate",
    source: "from memory",
    doubt: "Nothing was read about it.",
  },
  {
    id: "peel-apart-instant-colour",
    name: "Peel-apart instant print, colour",
    family: "peel-apart-instant",
    period: "1963 to 2016",
    material: "dyes by diffusion transfer on paper, later on resin-coated paper or polyester",
    source: "open encyclopedia, conservation of dye diffusion transfer prints; public source files",
    doubt: null,
  },
  {
    id: "peel-apart-instant-monochrome",
    name: "Peel-apart instant print, monochrome",
    family: "peel-apart-instant",
    period: "sepia 1948, neutral 1950",
    material: "silver by diffusion transfer on paper",
    source: "open encyclopedia, conservation of dye diffusion transfer prints",
    doubt: null,
  },
  {
    id: "gelatin-silver",
    name: "Gelatin silver print, base not known",
    family: "silver",
    period: "1880s on",
    material: "silver in gelatin on paper",
    source: "Heritage Science 5, 2017",
    doubt: "For prints whose base nobody has told apart yet: fibre feels like paper, resin-coated like plastic.",
  },
  {
    id: "gelatin-silver-fibre",
    name: "Gelatin silver print, fibre base",
    family: "silver",
    period: "1880s on; dominant to the 1960s",
    material: "silver in gelatin over a baryta layer on paper",
    source: "Heritage Science 5, 2017",
    doubt: null,
  },
  {
    id: "gelatin-silver-resin-coated",
    name: "Gelatin silver print, resin-coated",
    family: "silver",
    period: "early 1960s or about 1972 on",
    material: "silver in gelatin on paper between polyethylene",
    source: "S. Wagner, Topics in Photographic Preservation 8, 1999; L. Ross, Topics in Photographic Preservation 1, 1986",
    doubt: "The two sources differ about the first year: early 1960s (Wagner) or about 1972 (Ross).",
  },
  {
    id: "chromogenic",
    name: "Chromogenic print",
    family: "chromogenic",
    period: "1942 on; resin-coated from 1968",
    material: "cyan, magenta and yellow dyes in gelatin on fibre paper, then on resin-coated paper",
    source: "A. Fenech, thesis, UCL 2011; L. Ross, Topics in Photographic Preservation 1, 1986",
    doubt: "1942 is from memory. About 99 % of all colour photographs (Fenech).",
  },
  {
    id: "dye-destruction",
    name: "Dye destruction print (silver dye bleach)",
    family: "dye",
    period: "1963 on",
    material: "azo dyes, destroyed where they are not wanted, on very glossy polyester or resin-coated paper",
    source: "from memory",
    doubt: FROM_MEMORY,
  },
  {
    id: "dye-transfer",
    name: "Dye transfer print (dye imbibition)",
    family: "dye",
    period: "1946 to 1990s",
    material: "dyes in one gelatin layer over baryta on paper",
    source: "Image Permanence Institute, Graphics Atlas",
    doubt: FROM_MEMORY,
  },
  {
    id: "inkjet",
    name: "Inkjet print, dye or pigment",
    family: "digital",
    period: "1990s on",
    material: "colourant on a porous or swellable coating on paper, resin-coated paper or canvas",
    source: "from memory",
    doubt: FROM_MEMORY,
  },
  {
    id: "dye-sublimation",
    name: "Dye-sublimation print",
    family: "digital",
    period: "1990s on",
    material: "dyes from a ribbon under a clear coat on resin-coated paper",
    source: "from memory",
    doubt: FROM_MEMORY,
  },
  {
    id: "direct-thermal",
    name: "Direct thermal print",
    family: "direct-thermal",
    period: "2007 on",
    material: "dye crystals in a plastic-faced sheet",
    source: "from memory",
    doubt: FROM_MEMORY,
  },
  {
    id: "albumen",
    name: "Albumen print",
    family: "early-paper",
    period: "1850s to 1890s",
    material: "silver in egg white on thin paper, nearly always mounted",
    source: "J. M. Reilly, Picturescope 30(1), 1982",
    doubt: null,
  },
  {
    id: "salted-paper",
    name: "Salted paper print",
    family: "early-paper",
    period: "1840 to 1860",
    material: "silver in the fibres of the paper, without a binder",
    source: "from memory",
    doubt: FROM_MEMORY,
  },
  {
    id: "collodion-printing-out",
    name: "Collodion printing-out print",
    family: "early-paper",
    period: "1885 to 1920",
    material: "silver in collodion over baryta on paper",
    source: "from memory",
    doubt: FROM_MEMORY,
  },
  {
    id: "cyanotype",
    name: "Cyanotype",
    family: "early-paper",
    period: "1842 on",
    material: "Prussian blue in paper or cloth, without a binder",
    source: "from memory",
    doubt: FROM_MEMORY,
  },
  {
    id: "platinum-palladium",
    name: "Platinum or palladium print",
    family: "early-paper",
    period: "1873 to 1920s",
    material: "metal in the fibres of the paper, without a binder",
    source: "from memory",
    doubt: FROM_MEMORY,
  },
  {
    id: "daguerreotype",
    name: "Daguerreotype (cased)",
    family: "plate",
    period: "1839 to 1860s",
    material: "silver and mercury on silvered copper",
    source: "University of Illinois Library, preservation guidance",
    doubt: null,
  },
  {
    id: "ambrotype",
    name: "Ambrotype (cased)",
    family: "plate",
    period: "1854 to 1880s, or 1851 to about 1870",
    material: "silver in collodion on glass with a dark backing",
    source: "University of Illinois Library, preservation guidance; University of Louisville, Preserving Photographs, 2012",
    doubt: "The two sources differ about the years.",
  },
  {
    id: "tintype",
    name: "Tintype",
    family: "plate",
    period: "1853 or 1854 to 1930s",
    material: "silver in collodion on lacquered iron, which a magnet holds",
    source: "University of Illinois Library, preservation guidance; University of Louisville, Preserving Photographs, 2012",
    doubt: null,
  },
];

const byId = new Map(PROCESSES.map((process) => [process.id, process]));

export const findProcess = (id: string): Process | null => byId.get(id) ?? null;

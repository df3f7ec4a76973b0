import { cardsMarginMm, type Paper, paperSizes, pointMm } from "./paper.ts";
import { linesOf } from "./text-lines.ts";

export const cardsPerPage = [1, 2, 4, 8] as const;
export type CardsPerPage = (typeof cardsPerPage)[number];
export type CardLook = "words" | "symbols";

/** What the teacher would like, and what has to find room. */
export interface CardWish {
  readonly paper: Paper;
  readonly perPage: CardsPerPage;
  readonly large: boolean;
  readonly look: CardLook;
  /** Numbered boxes that each student needs, at least 1. */
  readonly boxes: number;
  readonly names: readonly string[];
  /** Somebody's own picture stands beside the name. */
  readonly pictures: boolean;
  readonly targets: readonly string[];
  /** The line that explains the marks; not printed with symbols. */
  readonly legend: string;
  /** What stands under the boxes, with room to write: the goal, the count, and the card's code. */
  readonly foot: readonly [goal: string, count: string, code: string];
}

/** Type sizes in points. `small` is the smallest on the card. */
export interface CardType {
  readonly name: number;
  readonly target: number;
  readonly small: number;
}

/** Lengths in millimetres, type in points. */
export interface CardLayout {
  /** May be fewer than wished. */
  readonly perPage: CardsPerPage;
  readonly large: boolean;
  readonly columns: number;
  readonly rows: number;
  readonly card: { readonly width: number; readonly height: number };
  readonly padding: number;
  readonly gap: number;
  /** Height of a line to write on. */
  readonly line: number;
  /** Lines under the boxes. */
  readonly footLines: number;
  readonly type: CardType;
  readonly box: { readonly columns: number; readonly width: number; readonly height: number };
  /** Side of the pictures around the boxes, and of the two within each, with symbols. */
  readonly picture: number;
  readonly boxPicture: number;
  /** Side of the student's own picture beside the name; 0 without. */
  readonly portrait: number;
  /** More than one when even a whole page cannot hold a student's boxes. */
  readonly cardsEach: number;
  readonly boxesPerCard: number;
}

const grids: Readonly<Record<CardsPerPage, { readonly columns: number; readonly rows: number }>> = {
  1: { columns: 1, rows: 1 },
  2: { columns: 1, rows: 2 },
  4: { columns: 2, rows: 2 },
  8: { columns: 2, rows: 4 },
};

const spaces: Readonly<Record<CardsPerPage, { readonly padding: number; readonly gap: number }>> = {
  1: { padding: 8, gap: 6 },
  2: { padding: 6, gap: 4 },
  4: { padding: 5, gap: 3 },
  8: { padding: 3.5, gap: 1.5 },
};

const types: Readonly<Record<CardsPerPage, CardType>> = {
  1: { name: 24, target: 16, small: 13 },
  2: { name: 18, target: 13, small: 11 },
  4: { name: 15, target: 11.5, small: 11 },
  8: { name: 12, target: 9.5, small: 9 },
};

/** Large print begins at 18 points: American Printing House for the Blind, large print guidelines [from memory]. */
const largeType: CardType = { name: 24, target: 18, small: 18 };

const mostBoxSides: Readonly<Record<CardsPerPage, number>> = { 1: 38, 2: 24, 4: 19, 8: 15 };

export const lineHeight = 1.25;
/** Share of the card's width that the name may take; the rest is for the date. Large print has a line for each. */
export const nameShare = 0.55;
export const boxGap = 1.2;

/** Room in a box for a child's + or -, and the side of a picture that can be circled. Common practice, no source. */
const writing = { normal: { width: 8.5, height: 7 }, large: { width: 13, height: 11 } } as const;
const pictures = { normal: 6.5, large: 10 } as const;
const pictureRoom = 3;
const pictureAir = 1.5;
const portraitScale = 1.4;
const portraitGap = 2;
/** A line to write on. */
const writingLine = { normal: 7, large: 11 } as const;

const lineMm = (sizePt: number): number => sizePt * pointMm * lineHeight;

/**
 * Where everything goes on a sheet of cards: as many cards as wished if all texts and boxes fit in a size
 * that can be read and written in, otherwise the next fewer that do. Boxes are as large as fits. When one
 * card on a page cannot hold all boxes, a student's boxes go on over several cards of a page each.
 */
export function layOutCards(wish: CardWish): CardLayout {
  for (const perPage of cardsPerPage.toReversed()) {
    if (perPage > wish.perPage) continue;
    const layout = fitCards(wish, perPage, wish.boxes);
    if (layout !== null) return layout;
  }
  for (let cardsEach = 2; cardsEach <= wish.boxes; cardsEach++) {
    const layout = fitCards(wish, 1, Math.ceil(wish.boxes / cardsEach));
    if (layout !== null) return { ...layout, cardsEach };
  }
  throw new RangeError("The words of a card must fit on a page; got longer ones.");
}

function fitCards(wish: CardWish, perPage: CardsPerPage, boxes: number): CardLayout | null {
  const grid = grids[perPage];
  const { padding, gap } = spaces[perPage];
  const type = wish.large ? largeType : types[perPage];
  const size = wish.large ? "large" : "normal";
  const sheet = paperSizes[wish.paper];
  const card = {
    width: (sheet.width - 2 * cardsMarginMm) / grid.columns,
    height: (sheet.height - 2 * cardsMarginMm) / grid.rows,
  };
  const inner = { width: card.width - 2 * padding, height: card.height - 2 * padding };
  const portrait = wish.pictures ? portraitSide(wish.look, size) : 0;
  const nameWidth = (wish.large ? inner.width : inner.width * nameShare) - portrait - portraitGap;
  const words = {
    name: mostLines(wish.names, nameWidth, type.name),
    target: mostLines(wish.targets, inner.width, type.target),
    legend: linesOf(wish.legend, inner.width, type.small),
  };
  const legend = wish.look === "symbols" ? pictures[size] + 2 : words.legend * lineMm(type.small);
  const line = Math.max(lineMm(type.small), writingLine[size]);
  const name = Math.max(words.name * lineMm(type.name), line, portrait);
  const head = wish.large ? name + line : name;
  const footLines = footLinesOf(wish.foot, inner.width, type.small);
  const target = words.target * lineMm(type.target);
  const used = head + target + legend + footLines * line + 4 * gap;
  const box = fitBoxes({
    boxes,
    room: { width: inner.width, height: inner.height - used },
    least: leastBox(wish.look, size, type),
    most: mostBoxSides[perPage],
  });
  if (box === null) return null;
  return {
    perPage,
    large: wish.large,
    ...grid,
    card,
    padding,
    gap,
    line,
    footLines,
    type,
    box,
    picture: pictures[size],
    portrait,
    boxPicture: Math.min(
      (box.width - pictureRoom) / 2,
      box.height - pictureAir - lineMm(type.small),
    ),
    cardsEach: 1,
    boxesPerCard: boxes,
  };
}

/** For those who read by it, larger; beside words no higher than the line it stands on. */
const portraitSide = (look: CardLook, size: "normal" | "large"): number =>
  look === "symbols" ? portraitScale * pictures[size] : writingLine[size];

/** All on one line where they fit, otherwise the goal above the rest. */
function footLinesOf([goal, count, code]: CardWish["foot"], widthMm: number, sizePt: number) {
  const lines = (text: string) => linesOf(text, widthMm, sizePt);
  if (lines(`${goal}__${count}__${code}`) === 1) return 1;
  return lines(goal) + lines(`${count}__${code}`);
}

const mostLines = (texts: readonly string[], widthMm: number, sizePt: number): number =>
  Math.max(1, ...texts.map((text) => linesOf(text, widthMm, sizePt)));

interface Size {
  readonly width: number;
  readonly height: number;
}

/** The number stands above the room to write, or above the two pictures of which one is circled. */
function leastBox(look: CardLook, size: "normal" | "large", type: CardType): Size {
  const number = lineMm(type.small);
  if (look === "words") {
    return { width: writing[size].width, height: writing[size].height + number };
  }
  return { width: 2 * pictures[size] + pictureRoom, height: pictures[size] + pictureAir + number };
}

/** Boxes this much smaller than the largest possible are taken for the sake of full rows. */
const sacrifice = 0.8;

/**
 * How many columns of boxes: of those with nearly the largest boxes, the ones that leave the fewest places
 * of the last row empty. Null when no boxes would be large enough.
 */
function fitBoxes(given: {
  boxes: number;
  room: Size;
  least: Size;
  most: number;
}): CardLayout["box"] | null {
  const { boxes, room, least } = given;
  const most = {
    width: Math.max(given.most, least.width),
    height: Math.max(given.most, least.height),
  };
  const found = Array.from({ length: boxes }, (_, index) => {
    const columns = index + 1;
    const rows = Math.ceil(boxes / columns);
    const width = Math.min(most.width, (room.width - (columns - 1) * boxGap) / columns);
    const height = Math.min(most.height, (room.height - (rows - 1) * boxGap) / rows);
    const scale = Math.min(width / least.width, height / least.height);
    return { columns, width, height, scale, empty: rows * columns - boxes };
  });
  const largest = Math.max(...found.map(({ scale }) => scale));
  if (largest < 1) return null;
  const [best] = found
    .filter(({ scale }) => scale >= Math.max(1, sacrifice * largest))
    .sort((one, other) => one.empty - other.empty || other.scale - one.scale);
  if (best === undefined) return null;
  const { columns, height } = best;
  // A row fills the card's width, however high its boxes may be.
  return { columns, width: (room.width - (columns - 1) * boxGap) / columns, height };
}

import 'uplot/dist/uPlot.min.css';
import uPlot from 'uplot';
import { type Axis, shareAlong } from './axis.ts';
import { type Colours, coloursAt, onThemeChange } from './colours.ts';
import { paintBoard, paintMarks, type Surface } from './marks.ts';
import { columnsOf, columnsOfString, type CoursePicture } from './picture.ts';

type Size = { readonly width: number; readonly height: number };

/** A chart in the page. `draw` shows a picture at a size in px; `close` takes the chart away. */
export type Plot = { readonly draw: (picture: CoursePicture, size: Size) => void; readonly close: () => void };

const bandShare = '13%';

/** Opens a chart in an element. It is made at the first picture that has a size, and again only for another number of strings. */
export function openPlot(place: HTMLElement): Plot {
  let chart: uPlot | null = null;
  let strings = 0;
  let shown: CoursePicture | null = null;
  let colours = coloursAt(place);
  const off = onThemeChange(() => {
    colours = coloursAt(place);
    chart?.redraw();
  });
  const remove = (): void => {
    chart?.destroy();
    chart = null;
  };
  return {
    draw: (picture, { width, height }) => {
      shown = picture;
      if (!(width > 0 && height > 0)) return;
      const data = columnsOf(picture).map((column) => [...column]) as uPlot.AlignedData;
      if (chart === null || strings !== picture.strings.length) {
        remove();
        strings = picture.strings.length;
        chart = new uPlot(
          optionsOf(picture, { width, height }, () => ({ picture: shown ?? picture, colours })),
          data,
          place,
        );
        return;
      }
      if (chart.width !== width || chart.height !== height) chart.setSize({ width, height });
      chart.setData(data);
    },
    close: () => {
      off();
      remove();
    },
  };
}

/** What a chart asks for whenever it paints. */
type Latest = () => { readonly picture: CoursePicture; readonly colours: Colours };

/** The chart supplies scales, curves, band and dots; the board's own parts are painted under and over them. It has no axes and no cursor. */
function optionsOf({ strings }: CoursePicture, { width, height }: Size, latest: Latest): uPlot.Options {
  return {
    width,
    height,
    padding: [0, 0, 0, 0],
    pxAlign: false,
    legend: { show: false },
    cursor: { show: false },
    axes: [{ show: false }, { show: false }],
    scales: {
      x: {
        time: false,
        range: [0, 1],
      },
      y: { range: () => [latest().picture.lowestCents, latest().picture.highestCents] },
    },
    series: [{}, ...strings.flatMap((_, index) => seriesOf(index === 0, latest))],
    bands: [{ series: [1 + columnsOfString.indexOf('high'), 1 + columnsOfString.indexOf('low')], fill: () => faint(latest().colours.ink) }],
    hooks: {
      drawClear: [(chart) => paintBoard(surfaceOf(chart, latest().picture.axis), latest().picture, latest().colours)],
      draw: [(chart) => paintMarks(surfaceOf(chart, latest().picture.axis), latest().picture, latest().colours)],
    },
  };
}

const faint = (colour: string): string => `color-mix(in srgb, ${colour} ${bandShare}, transparent)`;

/** The series of one string, in the order of `columnsOfString`. */
function seriesOf(isLeading: boolean, latest: Latest): uPlot.Series[] {
  const hidden: uPlot.Series = { points: { show: false }, width: 0, stroke: 'transparent' };
  const curve = (dash: number[]): uPlot.Series => ({
    points: { show: false },
    width: isLeading ? 1.75 : 1.25,
    stroke: () => latest().colours[isLeading ? 'ink-2' : 'ink-3'],
    dash,
  });
  const dots = (token: keyof Colours): uPlot.Series => ({
    paths: () => null,
    points: {
      show: true,
      size: isLeading ? 10 : 8,
      width: 1,
      stroke: () => latest().colours.board,
      fill: () => latest().colours[token],
    },
  });
  return [curve([]), curve([3, 4]), hidden, hidden, dots(isLeading ? 'on' : 'ink-3'), dots('bead-below'), dots('bead-above')];
}

function surfaceOf(chart: uPlot, axis: Axis): Surface {
  const { ctx: context, bbox } = chart;
  return {
    context,
    ratio: uPlot.pxRatio,
    left: bbox.left,
    top: bbox.top,
    width: bbox.width,
    height: bbox.height,
    x: (seconds) => chart.valToPos(shareAlong(axis, seconds), 'x', true),
    y: (cents) => chart.valToPos(cents, 'y', true),
  };
}

// The parts of echarts that the report draws with; everything else stays out of the page.
import { init, getInstanceByDom, use } from 'echarts/core';
import { BarChart, BoxplotChart, HeatmapChart, LineChart } from 'echarts/charts';
import {
  AriaComponent,
  GridComponent,
  LegendComponent,
  MarkAreaComponent,
  MarkLineComponent,
  MarkPointComponent,
  TitleComponent,
  TooltipComponent,
  VisualMapComponent,
} from 'echarts/components';
import { SVGRenderer } from 'echarts/renderers';

use([
  BarChart, BoxplotChart, HeatmapChart, LineChart,
  AriaComponent, GridComponent, LegendComponent, MarkAreaComponent, MarkLineComponent,
  MarkPointComponent, TitleComponent, TooltipComponent, VisualMapComponent,
  SVGRenderer,
]);

export { init, getInstanceByDom };

<?xml version="1.0" encoding="UTF-8"?>
<ColorCorrection id="only" xmlns="urn:ASC:CDL:v1.01">
    <SOPNode>
        <Slope>1.05 0.98 1.02</Slope>
        <Offset>-0.01 0 0.015</Offset>
        <Power>0.9 1.1 1</Power>
    </SOPNode>
    <SATNode><Saturation>1.1</Saturation></SATNode>
</ColorCorrection>

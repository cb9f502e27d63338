: 1 g20g18g90
(msg, invented pinion, inch)
n2g96s300m4
n3g0x2.5z.1
;HOBBING: DP=10 TEETH=30 HELIX=15 HAND=LEFT
;+ HOB-DIA=2.75 METHOD=CLIMB
n4 g1 z-1.25 c+0. 5 f.06
n5 g2 x2. 7 z-1.3 i.1 k-.05
;END HOBBING
n6 m30

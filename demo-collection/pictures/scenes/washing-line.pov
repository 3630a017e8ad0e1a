// size: 1200x850
// develop: ev=0.25 warm=0.03 con=0.3 grain=0.02 vig=0.3 sat=0.85
#include "common.inc"
Cam(<-2.4,1.5,-7.2>,<.3,1.45,0>,40,24/17,-1.2,<0,1,0>)
Haze(260,rgb <.75,.78,.82>)
Sky(rgb <.80,.83,.87>,rgb <.34,.50,.76>) Clouds(rgb <1.05,1.03,1>,.55,.35)
Sun(<-3,4,-2.5>,rgb <1.5,1.36,1.12>,1,3) SkyFill(rgb <.24,.27,.32>)
#declare GP = GrassPatch(900,.09,.006,srgb <.24,.36,.12>,srgb <.42,.48,.18>)
#for (I,-5,6) #for (J,-5,9) object { GP rotate y*90*mod(I+2*J+20,4) translate <I,0,J> } #end #end
plane { y,-.01 Matte(srgb <.22,.25,.12>) }
// cloths hang from the line and swing out with the wind
#macro Cloth(X,W,H,Ph,Sw,T) mesh { #local NX=26; #local NY=22;
 #for (I,0,NX-1) #for (J,0,NY-1)
  #macro CP(A,B) #local uu=A/NX; #local vv=B/NY; <X+W*uu+.03*sin(6*vv+Ph)*vv, 1.98-.10*sin(pi*(X+W*uu+3.3)/6.6)-H*vv*(1-.05*Sw), Sw*vv*vv*.55+.07*vv*sin(9*uu+Ph+2*vv)+.04*vv*sin(17*uu-Ph)> #end
  triangle { CP(I,J),CP(I+1,J),CP(I+1,J+1) } triangle { CP(I,J),CP(I+1,J+1),CP(I,J+1) } #end #end
 texture { T } double_illuminate } #end
#macro Plain(C) texture { pigment { C } normal { granite .08 scale .03 } finish { diffuse .72,.35 } } #end
#declare T_Stripe = texture { pigment { gradient x color_map { [.5 srgb <.92,.91,.87>][.5 srgb <.22,.34,.58>] } scale .12 } finish { diffuse .72,.35 } }
#declare T_Check = texture { pigment { checker srgb <.9,.87,.8>, srgb <.72,.2,.16> scale .09 } finish { diffuse .72,.35 } }
Cloth(-2.9,1.25,1.35,.4,.7,Plain(srgb <.94,.94,.92>)) Cloth(-1.55,.55,.75,1.7,.9,T_Check) Cloth(-.9,.62,.85,2.9,.8,Plain(srgb <.82,.62,.2>)) Cloth(-.2,1.35,1.3,4.2,.6,T_Stripe)
Cloth(1.25,.5,.7,5.5,1,Plain(srgb <.58,.72,.66>)) Cloth(1.82,.5,.7,3.3,.85,Plain(srgb <.9,.82,.78>)) Cloth(2.4,.55,.9,.9,.7,T_Check)
sphere_sweep { cubic_spline 9, #for (I,0,8) <-4.12+I*1.03,2.0-.10*sin(pi*(-4.12+I*1.03+3.3)/6.6),0>,.011 #end Matte(srgb <.75,.72,.64>) }
#macro Peg(X) box { <X-.012,1.91-.10*sin(pi*(X+3.3)/6.6),-.022>,<X+.012,2.03-.10*sin(pi*(X+3.3)/6.6),.02> Matte(srgb <.68,.52,.33>) } #end
Peg(-2.85) Peg(-2.25) Peg(-1.72) Peg(-1.48) Peg(-1.06) Peg(-.84) Peg(-.34) Peg(-.12) Peg(.5) Peg(1.08) Peg(1.3) Peg(1.7) Peg(1.87) Peg(2.26) Peg(2.45) Peg(2.9)
#for (S,-1,1,2) union { cylinder { <S*3.4,-.1,0>,<S*3.4,2.25,0>,.06 } cylinder { <S*3.4,2.0,-.35>,<S*3.4,2.0,.35>,.04 } Wood(srgb <.46,.38,.30>,srgb <.33,.27,.21>,.5) } #end
// basket
difference { cone { <-.5,0,-1.5>,.30,<-.5,.34,-1.5>,.38 } cone { <-.5,.03,-1.5>,.27,<-.5,.4,-1.5>,.355 } texture { pigment { checker srgb <.50,.36,.20>, srgb <.70,.54,.33> scale .03 } normal { checker 1 scale .03 } } }
object { LeafBall(60,.26,.16,srgb <.9,.9,.88>,srgb <.75,.8,.86>) scale <1,.5,1> translate <-.5,.34,-1.5> }
// hedge and the gable of a house behind
#declare Lf = LeafBall(160,.42,.07,srgb <.16,.30,.12>,srgb <.27,.40,.16>)
#for (I,0,60) object { Lf rotate y*I*50 translate <-9+I*.3+R(-.1,.1),.45+.35*mod(I,3)+R(-.1,.1),6.2+R(-.3,.3)> } #end
union { box { <3.2,0,8>,<8.5,3.1,12> } prism { linear_sweep linear_spline 8,12,4,<3.2,3.1>,<8.5,3.1>,<5.85,5.3>,<3.2,3.1> rotate x*-90 scale <1,1,-1> } Rough(srgb <.80,.74,.64>,.3,.03) }
#for (S,-1,1,2) box { <-.1,-.06,-.3>,<3.75,.08,4.3> rotate z*-39.7 scale <S,1,1> translate <5.85,5.38,8> Matte(srgb <.42,.22,.16>) } #end
box { <5.2,1.2,7.9>,<6.4,2.6,8.1> Gloss(srgb <.12,.14,.17>,.4) } box { <5.76,1.2,7.88>,<5.84,2.6,8> Matte(srgb <.9,.9,.86>) } box { <5.2,1.86,7.88>,<6.4,1.93,8> Matte(srgb <.9,.9,.86>) }

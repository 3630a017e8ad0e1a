// size: 1200x860
// develop: ev=0.3 warm=0.02 con=0.3 grain=0.018 vig=0.3 sat=0.75
#include "common.inc"
Cam(<-3.2,1.75,-6.0>,<.35,.45,.2>,38,60/43,1.3,<0,.4,0>)
Haze(160,rgb <.77,.80,.84>)
Sky(rgb <.82,.84,.86>,rgb <.44,.56,.75>) Clouds(rgb <1.05,1.03,1>,.6,.4)
Sun(<-2.2,3.6,-2.8>,rgb <1.5,1.36,1.14>,1,3) SkyFill(rgb <.26,.29,.34>)
plane { y,-.28 Water(rgb <.06,.11,.13>,.28,.9) interior { ior 1.33 } }
height_field { function 400,400 { .36+.75*(1-y)*(1-y)*.6+.10*f_noise3d(x*7,y*7,2)+.02*f_noise3d(x*60,y*60,5)-.26*pow(y,.8) } smooth translate <-.5,-.5,-.42> scale <30,2.2,22> translate <0,.12,0> texture { pigment { granite color_map { [0 srgb <.46,.42,.36>][.5 srgb <.60,.56,.48>][1 srgb <.70,.66,.58>] } scale .4 } normal { granite .5 scale .06 } } }
Pebbles(900,-5,5,-5.2,-.2,.015,.11)
// clinker hull: planks that overlap
#declare NS=30;
#macro HP(U,V,O) #local b=sin(pi*min(1,max(0,U*.86+.14)))*.5+.0; #local w=.74*pow(max(0,1-pow(abs(2*U-1),2.6)),.6)+.02; #local sh=.16*pow(2*U-1,2); <-1.9+3.8*U, (.06+.62*pow(V,1.35))+sh*(V+.25), (w*pow(sin(V*pi/2+.12),.8)+O)> #end
#macro Hull(S,O,T) #for (P,0,6) mesh { #for (I,0,NS-1) #local v0=P/7; #local v1=(P+1)/7+.02; #local Of=O+.012;
 triangle { HP(I/NS,v0,Of)*<1,1,S>,HP((I+1)/NS,v0,Of)*<1,1,S>,HP((I+1)/NS,v1,O)*<1,1,S> } triangle { HP(I/NS,v0,Of)*<1,1,S>,HP((I+1)/NS,v1,O)*<1,1,S>,HP(I/NS,v1,O)*<1,1,S> } #end texture { T } } #end #end
#declare T_Out = texture { pigment { granite color_map { [0 srgb <.48,.20,.13>][.25 srgb <.80,.80,.76>][1 srgb <.90,.90,.86>] } scale <.9,.15,.3> } normal { granite .25 scale .05 } finish { diffuse .75 specular .1 roughness .06 } }
#declare T_In = texture { pigment { granite color_map { [0 srgb <.30,.20,.12>][1 srgb <.52,.37,.22>] } scale <1.2,.08,.2> } normal { granite .2 scale .04 } finish { diffuse .75 } }
union { Hull(1,0,T_Out) Hull(-1,0,T_Out) Hull(1,-.025,T_In) Hull(-1,-.025,T_In)
 #for (S,-1,1,2) sphere_sweep { cubic_spline 13, #for (I,-0,12) HP(I/12,1.02,0)*<1,1,S>,.028 #end Matte(srgb <.16,.28,.40>) } #end
 cylinder { <-1.9,.05,0>,<1.9,.05,0>,.04 texture { T_In } } sphere_sweep { cubic_spline 4,<1.7,-.1,0>,.04,<1.88,.15,0>,.04,<1.93,.86,0>,.04,<1.93,1.1,0>,.04 Matte(srgb <.16,.28,.40>) } sphere_sweep { cubic_spline 4,<-1.7,-.1,0>,.04,<-1.88,.15,0>,.04,<-1.93,.86,0>,.04,<-1.93,1.1,0>,.04 Matte(srgb <.16,.28,.40>) }
 #for (K,0,2) box { <-.12,.44,-.62>,<.12,.475,.62> translate x*(-.95+K*.95) scale <1,1,(K=1?1:.82)> texture { T_In } } #end
 #for (K,0,12) sphere_sweep { cubic_spline 5, #for (J,0,4) HP(.12+K*.063,J/4,-.03),.012 #end texture { T_In } } #end
 // oars laid across
 #for (S,0,1) union { cylinder { <-1.5,0,0>,<1.1,0,0>,.022 } sphere { 0,1 scale <.36,.012,.07> translate <1.4,0,0> } rotate y*(8-S*13) translate <-.1,.56+S*.05,-.15+S*.28> Wood(srgb <.66,.52,.34>,srgb <.52,.38,.22>,.3) } #end
 sphere { <.7,.62,-.74>,.11 texture { pigment { srgb <.85,.4,.12> } normal { granite .15 scale .02 } } }
 rotate x*-11 rotate y*24 translate <.3,.02,.1> }
// rope to an iron ring, crab pots, far hills
sphere_sweep { cubic_spline 8,<1.9,.6,-1>,.014,<1.95,.5,-.8>,.014,<1.8,.1,-1.5>,.014,<1.2,.06,-2.2>,.014,<.5,.07,-2.1>,.014,<-.2,.06,-2.6>,.014,<-.9,.08,-2.4>,.014,<-1.2,.1,-2.4>,.014 texture { pigment { srgb <.72,.66,.52> } normal { gradient x 1 scale .02 } } }
#macro Pot(P,A) union { #for (K,0,4) torus { .26,.012 rotate z*90 translate x*(K*.14-.28) } #end #for (K,0,11) cylinder { vrotate(<-.28,.26,0>,x*K*30),vrotate(<.28,.26,0>,x*K*30),.007 } #end box { <-.32,-.27,-.24>,<.32,-.24,.24> } rotate y*A translate P Matte(srgb <.34,.27,.19>) } #end
Pot(<-2.0,.42,1.2>,30) Pot(<-2.45,.40,.75>,-20) Pot(<-2.2,.88,1.0>,62)
height_field { function 200,60 { .3+.5*f_noise3d(x*5,y*2,4)*sin(y*pi) } smooth translate <-.5,-.3,0> scale <260,26,60> translate <20,-1,90> Matte(srgb <.30,.36,.28>) }
#for (I,1,3) union { #for (S,-1,1,2) triangle { 0,<S*.35,.16,.08>,<S*.1,.03,.14> } triangle { <S*.35,.16,.08>,<S*.1,.03,.14>,<S*.75,.05,.1> } #end Matte(srgb <.9,.9,.9>) scale .7 rotate <R(-30,0),R(-50,50),R(-25,25)> translate <R(-3,4),R(2.4,3.6),R(2,6)> } #end
